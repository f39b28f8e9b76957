### The page about the API, and why the API refuses a request.

api-intro = JSON in, JSON out. It takes the same beds and gives the same answers as the command line.
# $address is the beginning of every address, $description a link.
api-addresses = Every address begins with { $address }. { $description } has every key of the case and of the answer, with its meaning.
api-description-link = The OpenAPI 3.1 description
# $header is what is sent, $account a link.
api-key = Each request carries a key, in the header { $header }. You can make one under { $account }.
api-no-key = On your own computer, no key is needed. Requests from other websites are refused.
api-example = Example
# $type is a content type.
api-toml = You can also send the text of a case file, as { $type }.
api-errors = Errors
api-errors-about = An error has a detail and a list of faults. Each fault has its path in the case, what was given, what is wrong and what is right. A 409 also brings what is there now, if somebody else was first: look at it, then send your change with its version.
api-query = Query: { $names }

## Errors

api-400 = The request could not be read.
api-401 = Sign in first, or send a key as “Authorization: Bearer KEY”. To make a key: loamshift office-user key
api-403 = You cannot do this. Readers change nothing, and a workbench for one adviser can be used only on its own computer.
api-404 = There is nothing at this address.
api-405 = This address does not accept this method. The header Allow lists the methods it accepts.
api-413 = The request is larger than 2.5 MB.
api-429 = Too many requests. The header Retry-After says when to continue.
api-500 = The program failed, and it is our fault. Please report it with the request id.
api-503 = The database does not answer. Nothing was changed. Try again after the seconds in Retry-After.
api-problems = { $n ->
    [one] 1 problem.
   *[other] { $n } problems.
}
api-schema-says = The OpenAPI description says what belongs here.
# $why is what the checker of the request says, in English.
api-invalid = This cannot be used: { $why }.
api-csrf = A browser session needs the header X-CSRFToken. Programs send a key instead.
api-own-only = Only programs and pages of this computer may use the API.
api-pace = No more than { $most } forecasts a minute. Wait { $seconds } s.
api-busy = Other forecasts are still running. Try again in a moment.
api-content-type = Send the case as application/json, or the text of a case file as application/toml.
api-not-text = The body is not UTF-8 text.
api-no-garden = There is no such garden.
api-gardens-listed = GET /api/v1/gardens lists them.
api-no-client = There is no such client.
api-clients-listed = GET /api/v1/clients lists them.
api-no-bed = There is no such bed.
api-beds-listed = GET /api/v1/beds lists them.
api-table-needed = A table is needed here.
api-send-keys = Send the keys of a case file.
api-too-deep = This is nested too deeply.
api-table-depth = A case file has tables inside tables once.
api-case-once = Send the case once: its keys as case, or its text as case_toml.
api-leave-one-out = Leave one of the two out.
