### Gardens: their form, and the plan that one draws on.

gardens-new = New garden
gardens-edit = Edit name and place
gardens-intro = A garden is one place with one climate. New beds in it start with that place.
gardens-needs-client = A garden belongs to a client, and you have no clients yet.
gardens-add-client-first = Add a client first
gardens-place-hint = The nearest town in the list. Its soil temperatures set the dates.
gardens-delete = Delete garden
gardens-delete-hint = { $beds ->
    [0] You can undo this for { $days } days.
    [one] Its bed and that bed's letters are deleted too. You can undo this for { $days } days.
   *[other] Its { $beds } beds and all their letters are deleted too. You can undo this for { $days } days.
}
gardens-added = { $garden } added.
gardens-changed = { $garden } changed.
gardens-deleted = { $garden } deleted.
# What somebody else has saved meanwhile in a field; $now may be none for the place.
gardens-plan-saved = Plan of { $garden } saved.
# $beds lists the beds whose size was taken from the plan.
gardens-plan-sizes = The plan also set the size of { $beds }.
gardens-size-changed = Size of { $bed } changed to { $size }.
gardens-nothing-for-bed = Nothing is drawn for { $bed } yet.

## The plan

gardens-plan = Plan of the garden
gardens-plan-there = The plan that is there now
gardens-conflict = This is the plan as it is now. What you drew is below it. Saving replaces the plan with yours.
gardens-save-plan = Save plan
gardens-add-area = Add an area
gardens-nothing-drawn = Nothing is drawn yet. Drag to draw an area on the plan, or type its width and length below. Choose a bed for it, and the bed gets its size from the plan.
gardens-help = Drag on the plan to draw an area. Drag an area to move it, a corner to reshape it, or the middle of an edge to add a corner. On a touch screen: choose “Add an area” below the plan, tap the area, then drag it or its corners. By keyboard: Tab selects an area, the arrow keys move it, Enter goes to its corners, Delete removes it.
# $square is a length with its unit, $scale a number.
gardens-scale = One square is { $square }. The plan prints at 1 : { NUMBER($scale, useGrouping: 0) } if the printer does not fit it to the page. The bar under the plan shows the scale either way.

## What is said while somebody draws, to screen readers too

gardens-said-moved = Moved.
gardens-said-drawn = Drawn. Give it a name or a bed in the table.
gardens-said-removed = Removed from the plan.
gardens-said-unsaved = You have unsaved changes.
gardens-said-corner = Corner
gardens-said-edge = New corner here

## The table of areas; $unit is "m" or "ft"

gardens-table = { $unit ->
    [ft] Areas, in feet. To remove an area, clear its width and length.
   *[m] Areas, in metres. To remove an area, clear its width and length.
}
gardens-number = Number
gardens-side = { $what ->
    [width] Width
    [length] Length
    [left] From the left
   *[top] From the top
}
gardens-cell = { $what ->
    [name] Name of area { $n }
    [bed] Bed of area { $n }
    [width] Width of area { $n }, { $unit }
    [length] Length of area { $n }, { $unit }
    [left] Area { $n } from the left, { $unit }
   *[top] Area { $n } from the top, { $unit }
}
gardens-no-bed = No bed
gardens-more-rows = More rows
gardens-ground = { $unit ->
    [ft] Size of the ground, feet:
   *[m] Size of the ground, metres:
}
gardens-ground-width = Width of the ground
gardens-ground-length = Length of the ground

## Sizes that the plan gives to beds

gardens-sizes = Sizes
gardens-size-same = { $drawn }, the same in the plan and in the bed
gardens-size-differs = { $kept ->
    [none] { $drawn } in the plan, no size in the bed
   *[other] { $drawn } in the plan, { $kept } in the bed
}
gardens-size-use = Use { $drawn }
gardens-beds = Beds in this garden
gardens-no-beds = No beds in this garden yet. Each bed has one soil and one purpose: a lawn and the border beside it are two beds.

## What can be wrong with a plan

gardens-too-many-areas = The plan has { $n } areas.
gardens-most-areas = Use no more than { $most }.
gardens-no-size = The area has no size.
gardens-give-size = Enter its width and length, or clear the row.
gardens-name-long = The name is too long.
gardens-bed-unknown = This bed is not in this garden.
gardens-choose-bed = Choose a bed of this garden.
gardens-many-corners = The area has too many corners.
gardens-most-corners = Use no more than { $most }.
gardens-size-half = Width and length go together.
gardens-size-both = Enter both.
gardens-length-wrong = “{ $typed }” is not a length that a plan can have.
gardens-length-right = Enter a number from { $least } to { $most }.
gardens-place-or-blank = Choose from the list, or leave it blank: each bed can have its own place.
