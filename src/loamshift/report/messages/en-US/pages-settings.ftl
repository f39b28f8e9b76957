### Settings of an office: what an American says in other words.

settings-currency-hint = Three letters, such as USD
settings-currency-wrong = Enter three letters, such as USD, or leave it blank.
settings-version = loamshift { $version }, model { $model }, tables { $tables }. License: { $licence }. Every letter names all three, so that you can tell why two letters differ.
