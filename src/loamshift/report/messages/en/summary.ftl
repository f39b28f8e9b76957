### Many beds at a glance: one line each, and how many were answered.

summary-decision = { $decision ->
    [stop] stop
    [leave] leave alone
    [measure-first] test first
    [elsewhere] elsewhere
    [effort] with effort
   *[go] go ahead
}
summary-column-case = Case
summary-column-decision = Decision
summary-column-amount = To apply
summary-column-letter = Letter, or problem

## How much, in one cell

# $amount is what goes on of one material.
summary-material = { $amount } { $product }
# $n is the number of applications; $provisional is yes where a test comes first.
summary-amounts = { $provisional ->
    [yes] { $n ->
        [one] if so, { $amounts }
       *[other] if so, { $amounts }, { WORD($n) } applications
    }
   *[no] { $n ->
        [one] { $amounts }
       *[other] { $amounts }, { WORD($n) } applications
    }
}
summary-amounts-then-test = { $provisional ->
    [yes] { $n ->
        [one] if so, { $amounts }, then a test decides
       *[other] if so, { $amounts }, { WORD($n) } applications, then a test decides
    }
   *[no] { $n ->
        [one] { $amounts }, then a test decides
       *[other] { $amounts }, { WORD($n) } applications, then a test decides
    }
}

## How many

# $answered of $all; $faulty is the number with a problem, $unreached those not begun.
summary-count = { $faulty ->
    [0] { $unreached ->
        [0] { $answered } of { $all } answered.
       *[other] { $answered } of { $all } answered, { $unreached } not begun.
    }
    [one] { $unreached ->
        [0] { $answered } of { $all } answered, 1 with a problem.
       *[other] { $answered } of { $all } answered, 1 with a problem, { $unreached } not begun.
    }
   *[other] { $unreached ->
        [0] { $answered } of { $all } answered, { $faulty } with problems.
       *[other] { $answered } of { $all } answered, { $faulty } with problems, { $unreached } not begun.
    }
}
