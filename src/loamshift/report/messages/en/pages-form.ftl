### The form for everything about a bed, and its plain text.

form-new-bed = New bed
form-intro = Leave blank anything you have not measured. The letter says what is missing and whether it matters. You can write a figure with its unit, as you would by hand: 20 m2, 6 in, 3 oz/sq yd.
form-conflict-caption = What both of you changed. The form below shows what you typed. Saving replaces what is there now.
form-conflict-field = Field
form-conflict-now = There now
form-conflict-typed = You typed
form-no-garden = None yet
form-garden-hint = Whose bed it is. A bed does not need a garden.
form-add-client = Add a client
form-text = Bed as text
form-text-hint = This is the bed's case file (TOML). Your own comments after # are kept, also when you edit the bed in the form.
form-to-form = Edit in the form
form-to-text = Edit as text
form-more = { $group ->
    [top] Date and units of the letter
    [place] More about the place
    [bed] More about the bed
    [soil] More about the soil
    [aim] More about the target
    [water] More about the water
    [feed] More about the fertiliser
    [pot] More about pots instead
   *[other] More
}
form-add-bed = Add bed
form-delete-bed = Delete bed
form-delete-hint = Its letters are deleted too. You can undo this for { $days } days.
form-remove-row = Remove { $list } { $n }
form-row = { $list } { $n }
form-add-row = Add another
# A field that is wrong: its part of the form, the number of its row, and what it is called.
form-field-in = { $group }: { $field }
form-field-in-row = { $group } { $n }: { $field }
form-added = { $bed } added.
form-draft-found = You typed something here before and did not save it.
form-draft-restore = Restore it
form-draft-drop = Discard it
form-merged = Somebody else changed other fields meanwhile; both changes were saved.
form-conflict = The saved value is shown under each field that differs. Saving again keeps what you typed.
form-there-now = { $now ->
    [none] The saved value is blank.
   *[other] Saved value: { $now }
}
form-changed = { $bed } changed.
form-text-unreadable = The text cannot be read: { $why }
form-text-correct = Correct the text below.
form-text-correct-first = Correct the text first. Then the form can show it.
# $unit as somebody would type it, such as "cm".
form-hint-bare = A number alone means { $unit }.
# $unit is that of a label whose figure has none of its own: "Sand, %".
form-label-unit = { $label }, { $unit }
form-hint-several = Separate several with semicolons.

## The parts of the form; lists of several are in the plural

form-group = { $table ->
    [place] Place
    [place-soil-temp] Soil thermometer
    [bed] Bed
    [soil] Soil
    [soil-other-ph] Second pH of the same sample
    [soil-layer] Layers below the sample
    [aim] Plants and target
    [water] Water
    [feed] Fertiliser
    [pot] Pots instead
    [on-hand] Products
    [test-price] Prices of tests
    [applied] Applications
    [reading] Tests
    [titration] Jar titration
    [claim] Claims
   *[top] Name of the bed
}
form-group-hint = { $table ->
    [place] Where the bed is, for its climate.
    [place-soil-temp] A reading of a soil thermometer in this bed.
    [bed] The bed itself.
    [soil] What is known about the soil.
    [soil-other-ph] Another pH of the same sample, by another method.
    [soil-layer] What lies below the sample, layer by layer.
    [aim] What you want to grow.
    [water] The water it gets.
    [feed] What it is fed in a year: nitrogen and its form, or a product with its rate.
    [pot] Pots to compare with this ground over five years.
    [on-hand] Products you have or can buy for this bed, with their prices.
    [test-price] What tests cost you, with postage.
    [applied] What has already been applied to this bed.
    [reading] pH tests before or after the main sample.
    [titration] Acid or lime added to jars of this soil, and the pH it came to.
    [claim] Materials that somebody recommends, to be checked.
   *[top] What the letter calls the bed.
}
