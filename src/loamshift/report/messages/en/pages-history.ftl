### The history of an office: every change, with the way to undo it.

acts-intro = Everything you added, changed or deleted in the last { $days } days. You can undo any of it, deletions too.
acts-of-one = Only changes to one item.
acts-none = Nothing has been changed yet. Everything you add, change or delete is listed here, and you can undo it.
acts-undone = undone
acts-things = { $n ->
    [one] one item
   *[other] { $n } items
}
# A moment; $time is hours and minutes.
acts-at = { $day }, { $time } UTC
acts-just-now = just now
acts-minutes-ago = { $n ->
    [one] 1 minute ago
   *[other] { $n } minutes ago
}
acts-hours-ago = { $n ->
    [one] 1 hour ago
   *[other] { $n } hours ago
}
acts-days-ago = { $n ->
    [one] 1 day ago
   *[other] { $n } days ago
}
acts-examples-added = Two example beds added.
