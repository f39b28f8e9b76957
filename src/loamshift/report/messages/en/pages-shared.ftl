### Words that many pages of the workbench share.

## Navigation

page-skip = Skip to content
page-nav-main = Main pages
page-nav-office = Office
page-home = Home
page-quick-advice = Quick advice
page-get-quick-advice = Get quick advice
page-beds = Beds
page-claims = Check a claim
page-products = Products
page-letters = Letters
page-history = History
page-settings = Settings
page-account = Account
page-data = Data and backups
page-api = API
page-sign-out = Sign out
page-sign-in = Sign in

## Buttons and links

page-save = Save
page-cancel = Cancel
page-undo = Undo
page-redo = Redo
page-remove = Remove
page-delete = Delete
page-search = Search
page-show-all = Show all
page-previous = Previous
page-next = Next
page-back = Back
page-choose = Choose …
page-position = Page { $n } of { $of }

## Small words in lists and forms

page-yes = yes
page-no = no
page-not-specified = Not specified
page-for-example = e.g. { $example }
page-example = example
page-name = Name
page-client = Client
page-garden = Garden
page-bed = Bed
page-place = Place
page-note = Note
page-contact = Contact

## Notices and problems

page-setting-letter = Setting the letter …

page-nothing-saved = { $n ->
    [one] There is one problem. Nothing has been saved, and nothing you typed is lost.
   *[other] There are { $n } problems. Nothing has been saved, and nothing you typed is lost.
}
page-enter-name = Enter a name.
page-fill-in = Fill this in.
page-choose-file = No file was chosen. Choose one first.
page-not-taken = This cannot be used. Enter something else.
page-choose-client = Choose a client.
page-choose-from-list = Choose one from the list.
page-shorten = Use no more than { $most } characters.
