### Questions about figures, where an American asks in other words.

doubt-hint-one-plant = Is it the water for one plant, or for one square foot?
doubt-what-feed-of-nitrogen = A yearly nitrogen rate
doubt-what-pack = A package
