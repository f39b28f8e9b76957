### Clients: their page, their form.

clients-new = New client
clients-edit = Edit name, contact and note
clients-intro = Only a name is needed. What you enter here is seen only by your office: letters carry the name of the bed.
# $client is a link with the name of a client.
clients-alike = You already have a client with this name: { $client }.
clients-contact-hint = Address, phone number, or anything else that reaches them.
clients-garden-empty = No beds in this garden yet.
clients-no-garden = No garden yet. A garden is one place with one climate. Its beds share both, and its plan shows where they are.
clients-letters = Letters sent
clients-letters-shown = The last { $shown } of { $count } letters. The others are listed with their beds.
clients-export = Export this client
clients-delete = Delete client
clients-added = { $client } added.
clients-changed = { $client } changed.
clients-deleted = { $client } deleted.
