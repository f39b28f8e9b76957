### Pages that say what went wrong: a heading, why, and what to do next.

errors-code = Code { NUMBER($status, useGrouping: 0) }
errors-request = request { $id }
errors-400 = This request could not be read
errors-400-why = The workbench does not understand the request.
errors-400-next = Go back and try again. If you used a saved address, open the page from Home instead.
errors-403 = You cannot do this
errors-403-why = Readers can see everything in their office but change nothing. A workbench for one adviser can be used only on its own computer.
errors-403-next = Ask an adviser in your office to make the change.
errors-404 = Page not found
errors-404-why = The address may be mistyped, or the page has been deleted.
errors-404-next = Anything deleted in the last { $days } days can be restored under History.
errors-405 = This address is not a page
errors-405-why = It answers a button on another page.
errors-405-next = Go back to that page and use the button.
errors-413 = Too large
errors-413-why = Files can have { $most } MB in total, and a form without files 2.5 MB.
errors-413-next = Nothing was saved. Send less at once. The command loamshift restore takes larger zip files.
errors-500 = That went wrong, and it is our fault
errors-500-why = The program failed while it made this page. What you saved before is safe. What you were saving just now may not be.
errors-500-next = Go back and try once more. If it fails again, please report it and say what you did.
errors-503 = The database does not answer
errors-503-why = The workbench runs, but it cannot reach its data. What you saved before is safe. What you were saving just now was not saved.
errors-503-next = Wait a moment, then reload the page; a browser then sends a form again. If it lasts, tell whoever runs the server.
errors-stale = This form has expired
errors-stale-why = It was open for too long, or you have signed in or out since. Nothing was changed.
errors-stale-next = Go back, reload the page and send the form again. What you typed should still be there.
