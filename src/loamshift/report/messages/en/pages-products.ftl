### Products of an office: what was done with them.

products-added = { $product } added to products.
products-changed = { $product } changed.
products-deleted = { $product } deleted from products.
