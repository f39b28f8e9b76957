### What an American says in other words.

rescue-today-stop-lime = Stop everything that limes: lime, wood ash and mushroom compost. Use rainwater where you can, because tap water often contains lime.
rescue-today-stop-feeds = Stop all fertilizers and soil amendments until the salt level is down.
rescue-lift-until-steady = Move plants you value into fresh potting mix until the tests are steady. Roots that have turned brown and stubby will not recover where they are.
rescue-lift-until-result = Move plants you value into fresh potting mix, and wait for the result.
rescue-never-plain-iron = Do not use plain iron sulfate for the iron { $ground ->
    [container] in a mix with lime in it
   *[bed] on calcareous soil
}: it is locked up within days.
rescue-rainwater = Use rainwater where you can: the lime in tap water adds to the problem.
rescue-iron-spray = For quick greening, spray the leaves with an iron chelate or iron sulfate sold for leaves, on a cloudy day and at the label rate. It greens only the leaves it touches, so repeat it as new ones come.
rescue-own-place =
    { $bed ->
        [pot] In the long run, repot in fresh acidic potting mix and water with rainwater. Or grow something that suits this water.
        [stock] In the long run, plant a rootstock or variety that is sold for limy soil. Or plant something that suits this soil.
       *[ground] In the long run, grow the plants in a raised bed or pot filled with acidic mix, watered with rainwater. Or plant something that suits this soil.
    }
rescue-ask-laboratory = A soil lab for pH and salt (EC), always by the same method.
rescue-ask-adviser = Your county Extension office or a licensed adviser, before you apply anything more or give up plants of value.
rescue-repot = Do not treat the mix in the pots. Tip the plants out, shake off the old mix and repot them in fresh potting mix. Put the old mix where nothing grows.
rescue-safe-repotted = This is the old mix, if it were kept. Plants that are repotted in fresh potting mix are out of it at once.
