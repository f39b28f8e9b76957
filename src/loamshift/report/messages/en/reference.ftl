### The reference of the case file and of the answer, in Markdown. Keys, units and examples are never
### translated.

reference-case-head =
    # The case file and the answer

    <!-- Written by `python -m loamshift.case.page docs/case.md` from the schema; do not edit here. -->

    A case goes in as a TOML file, version { $case-version }; the answer comes out as JSON, version
    { $answer-version } (`loamshift advise CASE.toml --json`). This page lists every key of both.
    `loamshift schema case` and `loamshift schema answer` print both as JSON Schema, with which an editor
    completes and checks a file; `loamshift check CASE.toml` reads one without answering it.

    ## Quantities

    A quantity is a text with a unit, such as `"20 m2"`, `"6 in"`, `"3 cups"`, `"180 mg/L CaCO3"`,
    `"5 oz/yd2"` or `"1 cup per plant"`. A bare number is read the same way whatever `units` says: area
    in m2, depth in cm, alkalinity in mg/L CaCO3, rate in g/m2, and on the whole bed weekly water in L
    and amount in g.

    - Fractions (`"1 1/2 in"`, `"½ cup"`), a decimal comma (`"2,5 cm"`) and thousands (`"1,000 sq ft"`)
      are read. A comma before exactly three digits marks thousands unless a zero stands before it.
    - Areas: m2, ha, sq ft, sq yd, acre; `"5 x 4 m"`; `"40 cm diameter"`.
    - Weights: g, kg, t (1000 kg), oz, lb, `short ton` (2000 lb), `long ton` (2240 lb). A plain ton to
      the acre is read as the short ton, a plain ton to the hectare as the tonne, and the letter says
      so; a plain ton otherwise is refused, as is cwt.
    - Volumes: mL, L, m3, fl oz, pint, quart, gallon (of the US, and the letter says so; write `UK gal`
      for the other), cu ft, cu yd; a layer such as `"5 cm"` as a rate; cups, spoons, handfuls and
      buckets, which become grams by the material's own density, with their spread told.
    - Rates: any weight or volume per m2, 100 sq ft, 1000 sq ft, yd2, acre, ha, plant or pot.
    - Alkalinity: mg/L or ppm as CaCO3 or as HCO3, meq/L, mmol/L HCO3, dKH. Degrees of hardness are
      refused there.
    - Temperatures: °C, or °F when `F` is written.

    Plants, places, materials and textures are found without regard to case, hyphens or the spelling
    of { "sulphur" } and { "sulfur" }, by any of their names; form and fineness follow a comma
    (`"{ "elemental sulfur, prills" }"`). A name that is unknown or could mean two things is a fault that
    lists the nearest. Dates are written 2026-04-12.

    Every fault is told at once, each with its path and, in a file, its line: `applied[2].amount` is the
    amount of the second `[[applied]]`. A file over 1 MB is not read.

    ## The case file

reference-rules =
    ## Versions

    The meaning of a key never changes within version { $case-version } of the case file or version
    { $answer-version } of the answer. A new key that may be left out, a new word of an enumeration, a new
    caution code or a wider spelling may come within a version; anything else makes a new version,
    which an older loamshift refuses by its number. An answer is stored whole, so that an old letter
    says the same when it is opened again.

# $table and $text show the same label, as a table and as a text.
reference-label-head =
    ### The label

    `label` takes the analysis on a bag, as a table or as a text with the same keys (`_pct` may be left
    out there): `label = { $table }` or
    `label = { $text }`. Every figure is per cent of the product as sold, and
    may be left out. `material` may then be the product's own name; a shipped name lends what no bag
    prints (grain, form, weight of a cup). Sulfate and phosphate count as parts of salts; calcium and
    magnesium are lime only by the neutralising value.
reference-label-columns = | key | what it takes | on bags | meaning |
reference-label-text = text, such as `{ $example }`

reference-answer-head =
    ## The answer

    All keys are always there; they are null or `[]` when there is nothing to say. Shares are fractions
    from 0 to 1, `mid` is the median, and acid is positive where it acidifies. Dates are ISO texts,
    numbers carry six significant digits, and nothing is ever NaN. `loamshift schema answer` prints the
    same as JSON Schema. Version { $answer-version }.

reference-names-head =
    ## Names

    Each is found by other spellings too; `loamshift materials`,
    `loamshift plants` and `loamshift places` list the longer tables.
reference-names = { $list ->
    [buffers] Buffer-pH methods
    [cautions] Caution codes of the answer
    [kitchen] Kitchen measures
   *[textures] Textures
}
reference-names-of = **{ $list }:**

## Tables of keys

reference-top = Top of the file
reference-many = { $meaning } Any number of entries.
reference-columns = | key | what it takes | default | example | meaning |
reference-required = **required**
reference-not-given = not given

## The answer's tables

reference-answer-top = Top of the answer
reference-used-in = In { $places }.
reference-answer-columns = | key | type | unit | meaning |
reference-part-columns = | key | unit | meaning |
reference-kind = { $kind ->
    [date] date
    [null] null
    [number] number
    [true-or-false] true or false
    [whole-number] whole number
   *[text] text
}
reference-list-of = list of { $kind }
reference-table-or-null = table or null
# $kinds are two or more kinds of value, one of which stands there.
reference-one-or-other = { $first } or { $other }

## The page of the answer's keys

reference-answer-keys-head =
    # Answer keys

    <!-- Written by `python -m loamshift.case.answer_page docs/answer-keys.md`; do not edit here. -->

    What `loamshift advise CASE.toml --json` prints, key by key, and what stands behind each number:
    the equation, the figures that weigh most in it, and who says so. `loamshift why KEY` prints the
    same at a terminal. Types and enumerations are listed with [the case file](case.md). Version
    { $answer-version } of the answer: all keys are always there, null or `[]` where there is nothing to
    say, and their meaning stays fixed within a version.
reference-unit = Unit: { $unit }.
reference-figure-columns = | figure | value | likely | unit | evidence | source |
reference-range = { $low } to { $high }

## The page of the command line

reference-cli-head =
    # The command line

    Written from the help texts by `python -m loamshift.cli.page docs/cli.md`; a test keeps it so.

    Results go to stdout, everything else to stderr. Exit codes: 0 answered (also with “don't”),
    1 invalid input, 2 wrong usage, 3 internal error, 130 interrupted. `NO_COLOR` is honoured, and a
    pipe gets plain text. `LOAMSHIFT_WORDS=us` chooses US spelling for letters, messages and help;
    `LOAMSHIFT_TRACEBACK=1` shows where an internal error happened. The commands why and card can also
    be called explain and handout. Shell completion: `loamshift --install-completion`.

## JSON Schema

schema-case-title = Case file of loamshift, version { $version }
schema-answer-title = Answer of loamshift, version { $version }
# What a key takes stands behind its meaning.
schema-takes = { $meaning } Takes: { $takes }.
