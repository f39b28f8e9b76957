### The pages that bring laboratory files and field notes into beds.

intake-page-title = Add from a file
intake-page-intro = Soil tests from a laboratory, or readings noted in the field. Nothing enters a bed before you have confirmed it.
intake-page-file = File
# $most is a number of megabytes.
intake-page-kinds = CSV, TSV, Excel, OpenDocument or a PDF with text, up to { $most } MB.
intake-page-laboratory = Laboratory
intake-page-laboratory-hint = What you answer about its columns is proposed for its next file. Leave it blank for field notes.
intake-page-read = Read file
intake-page-too-large = { $file } is larger than { $most } MB. Save only the sheet with the results.
intake-page-many-rows = { $file } has { $count } rows. The page takes up to { $most }. Split the file, or use the command loamshift intake.
intake-page-files = Files
intake-page-is-entered = entered
intake-page-is-open = not entered yet
# $days is a number of days.
intake-page-kept = Files are deleted { $days } days after they were last changed.

## One file

intake-page-was-entered = This file has been entered.
intake-page-not-entered = Nothing of this file has been entered yet.
intake-page-undo = Undo this import
# The names of beds follow, as links.
intake-page-entered-beds = Open a bed to say what you want to grow there, and whatever the file leaves out:
intake-page-questions = { $n ->
    [one] One question
   *[other] { $n } questions
}
intake-page-choose = Choose …
intake-page-answer = Save answers
intake-page-columns = What each column was read as
intake-page-heading = Column
intake-page-cells = In the file
intake-page-taken = Read as
intake-page-why = Why
# $aspect is what of a column is chosen.
intake-page-aspect = { $aspect ->
    [meaning] Meaning
    [unit] Unit
   *[method] Method
}
intake-page-unsure = Please check this one: its figures are held back until you have answered.
intake-page-ignore = leave this column out
# $choice is an answer to a question.
intake-page-choice = { $choice ->
    [ignore] leave this column out
    [keep] correct as they are
    [leave-out] leave them out
    [convert] yes, convert each figure
    [first] the first one
    [last] the last one
    [both] separate samples
    [none] none of them
    [decimal] a decimal comma
   *[thousands] a thousands comma
}
intake-page-remarks = What we noticed
intake-page-rows = { $n ->
    [0] No rows to enter
    [one] One row to enter
   *[other] { $n } rows to enter
}
intake-page-rows-how = A further test of a bed becomes a reading, and fills in what is not known of its soil. Nothing already in the bed is replaced. Clear the name of a bed to leave its row out.
intake-page-no-rows = No row has a figure that can be entered yet. Answer the questions above, or say what the columns are.
intake-page-garden = Garden for new beds
intake-page-no-garden = No garden
intake-page-sample = Sample
intake-page-figures = Figures
intake-page-held = Not entered:
intake-page-bed = Bed
intake-page-bed-of = Bed for { $sample }
intake-page-new = new bed
intake-page-existing = existing bed: adds this test to it
intake-page-near = No bed has this name. Perhaps:
intake-page-out = left out
intake-page-enter = { $n ->
    [one] Add one row to its bed
   *[other] Add { $n } rows to beds
}
intake-page-save = Save for later
intake-page-again = Discard answers
intake-page-look-again = Answers saved. Check the rows again, then add them.
intake-page-nothing = No row has a bed to go to. Name a bed for at least one row.
intake-page-file-itself = The file as it is
# $n is how many rows the sheet has.
intake-page-more-rows = The sheet has { $n } rows.
intake-page-delete = Delete file
# $file is the name of a file.
intake-page-deleted = { $file } deleted. What it added to beds stays.
# $new is how many new beds, $changed how many existing ones.
intake-page-entered = Added { $file }: { $new ->
    [0] { $changed ->
        [one] one bed updated.
       *[other] { $changed } beds updated.
    }
    [one] { $changed ->
        [0] one new bed.
        [one] one new bed, one bed updated.
       *[other] one new bed, { $changed } beds updated.
    }
   *[other] { $changed ->
        [0] { $new } new beds.
        [one] { $new } new beds, one bed updated.
       *[other] { $new } new beds, { $changed } beds updated.
    }
}
# $already is how many readings were there before; $undated names samples without a day, or none.
intake-page-left-out = { $already ->
    [0] { $undated } was left out: a reading of a bed needs its day.
   *[other] { $undated ->
        [none] Readings that were already there were left out.
       *[other] Readings that were already there were left out, and { $undated }, which has no day.
    }
}
