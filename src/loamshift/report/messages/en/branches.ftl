### What to do for each outcome of an open question.

branches-heading = What it depends on
# $field names what is open: the field of the case file with dashes.
branches-lead = { $field ->
    [soil-fizz] A fizz test would settle which of these holds.
    [soil-fizz-acid] A fizz test with the other acid would settle which of these holds.
    [soil-carbonate-pct] A laboratory figure for free lime would settle which of these holds.
    [soil-ph] A laboratory pH would settle which of these holds.
    [water-alkalinity] The alkalinity of the water would settle which of these holds.
    [water-weekly] Knowing how much water { bed-the } gets would settle which of these holds.
    [soil-texture] Knowing the texture would settle which of these holds.
    [titration] A jar titration would settle which of these holds.
   *[other] One more test would settle which of these holds.
}
branches-line = **{ $outcome }** ({ $chance } in 100): { $advice }.
# $alone is "yes" where lime has one outcome only, whatever its amount.
branches-fizz = { $outcome ->
    [no-lime] If nothing fizzes
    [some-lime] { $alone ->
        [yes] If it fizzes
       *[no] If it fizzes a little
    }
    [more-lime] { $alone ->
        [yes] If it fizzes
       *[no] If it fizzes clearly
    }
   *[much-lime] { $alone ->
        [yes] If it fizzes
       *[no] If it fizzes strongly
    }
}
branches-carbonate = { $outcome ->
    [no-lime] If it finds no free lime
    [some-lime] { $alone ->
        [yes] If it finds free lime
       *[no] If it finds a little free lime
    }
    [more-lime] { $alone ->
        [yes] If it finds free lime
       *[no] If it finds more free lime
    }
   *[much-lime] { $alone ->
        [yes] If it finds free lime
       *[no] If it finds a lot of free lime
    }
}
# $need is an amount of pure sulphur or lime, or "none".
branches-advice = { $decision ->
    [go] { $need ->
        [none] go ahead
       *[other] about { $need } of pure { $of ->
            [lime] lime
           *[sulfur] sulphur
        }
    }
    [effort] { $need ->
        [none] more effort than usual
       *[other] about { $need } of pure { $of ->
            [lime] lime
           *[sulfur] sulphur
        }, with more effort than usual
    }
    [elsewhere] { $need ->
        [none] use another place
       *[other] about { $need } of pure { $of ->
            [lime] lime
           *[sulfur] sulphur
        } would be needed, so use another place
    }
    [leave] leave the pH alone
    [stop] apply nothing
   *[measure-first] { $need ->
        [none] another test is needed first
       *[other] another test is needed first; about { $need } of pure { $of ->
            [lime] lime
           *[sulfur] sulphur
        }
    }
}
# One of several steps that a test could show, from low to high.
branches-step = { $field ->
    [soil-ph] { $place ->
        [low] If it reads lower than yours
        [high] If it reads higher than yours
       *[middle] If it reads about as yours
    }
    [soil-ph-method] { $place ->
        [low] If the method reads low in { soil-this }
        [high] If the method reads high in { soil-this }
       *[middle] If the method reads about true
    }
    [water-alkalinity] { $place ->
        [low] If the alkalinity is lower than we guess
        [high] If the alkalinity is higher than we guess
       *[middle] If the alkalinity is about what we guess
    }
    [water-weekly] { $place ->
        [low] If { bed-the } gets less water than we guess
        [high] If { bed-the } gets more water than we guess
       *[middle] If { bed-the } gets about as much water as we guess
    }
   *[other] { $place ->
        [low] If { soil-this } resists change less than we guess
        [high] If { soil-this } resists change more than we guess
       *[middle] If { soil-this } resists change about as much as we guess
    }
}
