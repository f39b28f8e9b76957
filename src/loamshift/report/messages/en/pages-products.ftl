### Products of an office: the list, the form, price lists, and products compared for a bed.

products-intro = Products you have or can buy. Anything in stock is used in every letter whose bed does not name its own products.
products-none = No products yet. Add the bag of sulphur or lime you use most, with its pack size and price. From then on, every letter names it and says what the acid or lime in it costs. No bag tells you that.
products-search = Search products
products-no-results = No results for “{ $find }”.
products-name = Product
products-material = What it is
products-strength = Strength
products-brings = What it brings
products-pack = Pack
products-price = Price
products-by-worth = Price by what it brings
products-in-stock = In stock
# In the column that says what a product is: a product that has no other name.
products-by-label = known by its label
# What acts on the pH in a product, by its label; $share is a percentage such as 30%.
products-strength-sulfur = { $share } S
products-strength-ammonium = { $share } ammonium N
products-strength-urea = { $share } urea N
products-strength-nitrate = { $share } nitrate N
products-strength-slow = { $share } slow N
products-strength-iron = { $share } Fe
products-strength-aluminium = { $share } Al
products-strength-lime = { $share } neutralising value
products-unusable = These figures cannot be used. Open the product to correct them.
products-add = Add a product
products-import = Import a price list
products-export = Price list as CSV
products-added = { $product } added to products.
products-changed = { $product } changed.
products-deleted = { $product } deleted from products.

## The form; a field's hint says what to write in it

products-new = Add a product
products-name-hint = As printed on the pack
products-material-hint = Any trade name: flowers of sulphur, garden lime, sulphate of ammonia. Leave blank if you copy the analysis.
products-purity = Strength on the label (%)
products-purity-hint = Sulphur in a sulphur product, neutralising value of a lime, nitrogen of a fertiliser. Leave blank for the usual strength.
products-pack-hint = With its unit: 25 kg, 50 lb
products-pack-price = Price of the pack
products-currency = Currency
products-use = In stock, so letters may use it
products-analysis = Or copy the analysis from the bag
products-analysis-hint = All figures are percentages of the product. Leave blank what the bag does not print. The analysis replaces the strength above.
products-fineness-hint = 40% through 150 um, 95% through 5 mm
products-delete = Delete product
products-name-missing = The product has no name.
products-name-write = Write the name on the pack.
products-stock-unclear = “{ $typed }” is neither yes nor no.
products-stock-write = Write yes or no.
products-purity-blank = Leave the strength blank if you are not sure.
products-material-missing = No material is named.
products-material-choose = Choose one from the list.
products-material-list = Choose one from the list that opens in the field. Trade names work too.
products-price-number = Write the number alone, such as 12.50. Give the currency separately.

## The figures of a label, under the headings of a bag

products-label-nitrogen = Nitrogen (N)
products-label-sulfur = Sulphur, iron and aluminium
products-label-lime = Lime: neutralising value (NV)
products-label-minerals = Phosphate, potassium, calcium and magnesium
products-label-n-total = total
products-label-n-ammonium = ammoniacal
products-label-n-nitrate = nitrate, nitric
products-label-n-urea = urea, ureic
products-label-n-slow = slow or organic
products-label-s-element = S, elemental
products-label-s-sulfate = S as sulphate
products-label-fe-sulfate = Fe as sulphate
products-label-al-sulfate = Al as sulphate
products-label-nv-caco3 = NV as CaCO3 (CCE)
products-label-nv-cao = NV as CaO (UK bags)
products-label-filler = inert filler
products-label-fineness = what passes which sieve

## Price lists

prices-intro = Choose a CSV file whose first row names the columns. “name” and “material” are needed; the others can be blank or left out. A product with the same name as one of yours is changed. Any other is added. Either the whole list is imported or none of it, and you can undo it.
prices-refused = Nothing has been imported
prices-correct = Correct these in the file, then choose it again.
# The head of a column: a row of the file, or the file itself.
prices-where = Where
prices-row = Row { $n }
prices-column = Column
prices-given = Given
prices-wrong = Problem
prices-right = What to do
prices-file = File
prices-more = { $n ->
    [one] And one more.
   *[other] And { $n } more.
}
prices-choose = CSV file, up to 1 MB
prices-import = Import
prices-imported = { $n ->
    [one] Price list with one product imported.
   *[other] Price list with { $n } products imported.
}
prices-large = The file is larger than 1 MB.
prices-split = Split it into smaller lists.
prices-not-csv = This is not a CSV file.
prices-save-csv = Save the sheet as CSV (UTF-8), then choose that file.
prices-not-utf-8 = The file is not UTF-8 text.
prices-quote-open = A quotation mark is missing or in the wrong place.
prices-save-again = Correct it, or save the sheet as CSV again.
prices-empty = The file is empty.
prices-many-rows = The file has more than { $most } rows.
prices-many-columns = The first row has more than { $most } columns.
prices-many-cells = This row has more cells than the first row.
prices-quote-separator = If a cell contains a separator, put the cell in quotation marks.
prices-same-name = Row { $row } has the same name.
prices-keep-one = Keep one of the two.
prices-no-rows = There are no rows below the names of the columns.
prices-column-missing = This column is missing.
prices-column-unknown = This is not a known column.
prices-column-twice = This column appears twice.
prices-columns = The first row names the columns: { $columns }
prices-material-write = Write a trade name, such as flowers of sulphur or garden lime.

## Products compared

products-compare = Compare two products
products-compare-one = First product
products-compare-other = Second product
products-compare-go = Compare
products-compare-unusable = One of these cannot be used until its figures are corrected.
products-compare-different = Choose two different products.
products-for-bed = For the selected bed
products-for-bed-own = This bed names its own products, and its letter uses those.
products-for-bed-choose = Choose a bed to compare your products for it: rate, amount, packs, cost, speed, salt and cautions, the best first.
products-for-bed-none = Once you have saved a bed, you can compare your products for it here: rate, amount, packs, cost, speed, salt and cautions.
