### The history of an office: every change, with the way to undo it.

changes-intro = Everything you added, changed or deleted in the last { $days } days. You can undo any of it, deletions too.
changes-of-one = Only changes to one item.
changes-none = Nothing has been changed yet. Everything you add, change or delete is listed here, and you can undo it.
changes-undone = undone
changes-things = { $n ->
    [one] one item
   *[other] { $n } items
}
# A moment; $time is hours and minutes.
changes-at = { $day }, { $time } UTC
changes-just-now = just now
changes-minutes-ago = { $n ->
    [one] 1 minute ago
   *[other] { $n } minutes ago
}
changes-hours-ago = { $n ->
    [one] 1 hour ago
   *[other] { $n } hours ago
}
changes-days-ago = { $n ->
    [one] 1 day ago
   *[other] { $n } days ago
}
changes-examples-added = Two example beds added.
