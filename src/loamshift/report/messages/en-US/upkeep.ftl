### What an American says in other words.

upkeep-feed =
    { $feed ->
        [ammonium-sulfate] { $rate } of ammonium sulfate
       *[other] { $rate } of { $product }
    }
