### What a bed is called. $kind is ground, raised, container, lawn or field; $count how many alike.

bed-this = { $kind ->
    [raised] { $count ->
        [one] this raised bed
       *[other] these raised beds
    }
    [container] { $count ->
        [one] this pot
       *[other] these pots
    }
    [lawn] { $count ->
        [one] this lawn
       *[other] these lawns
    }
    [field] { $count ->
        [one] this field
       *[other] these fields
    }
   *[ground] { $count ->
        [one] this bed
       *[other] these beds
    }
}
# Many of a kind, as in “100 beds like this one”.
bed-alike = { $kind ->
    [container] pots
    [lawn] lawns
    [field] fields
   *[ground] beds
}
bed-whole = { $kind ->
    [raised] { $count ->
        [one] the raised bed
       *[other] all { $count } raised beds
    }
    [container] { $count ->
        [one] the pot
       *[other] all { $count } pots
    }
    [lawn] { $count ->
        [one] the lawn
       *[other] all { $count } lawns
    }
    [field] { $count ->
        [one] the field
       *[other] all { $count } fields
    }
   *[ground] { $count ->
        [one] the bed
       *[other] all { $count } beds
    }
}
# The head of a column of amounts.
bed-for-whole = for { $whole }

## What is treated, in the middle of a sentence: a pot has a mix and no ground. $ground is what the
## letter is about.

soil-the = { $ground ->
    [container] the mix
   *[bed] the soil
}
soil-this = { $ground ->
    [container] this mix
   *[bed] this soil
}
soil-one = { $ground ->
    [container] mix
   *[bed] soil
}
soil-many = { $ground ->
    [container] mixes
   *[bed] soils
}
bed-the = { $ground ->
    [container] the pot
    [lawn] the lawn
    [field] the field
   *[bed] the bed
}
