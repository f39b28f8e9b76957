### Plants that an American calls by another name; every other plant has its name from the table.

plant-broad-bean = broad bean
