## Answers in words, as entries tell them

told-wood-hardwood = hardwood
told-wood-softwood = softwood
told-wood-mixed = hardwood and softwood
told-wood-unknown = wood not known
told-pieces-flour = as fine as flour
told-pieces-coffee = like ground coffee
told-pieces-flakes = flakes
told-pieces-matchsticks = like matchsticks
told-pieces-bigger = bigger than matchsticks
told-pieces-unknown = pieces not known
told-handful-dusty = a handful is dusty
told-handful-damp = a handful is cool and damp
told-handful-drips = a handful drips
told-handful-unknown = moisture not known
told-age-fresh = fresh
told-age-months = some months old
told-age-year = about a year old
told-age-years = some years old
told-age-unknown = age not known
told-smell-wood = smells of wood
told-smell-earth = smells of earth
told-smell-sour = smells sour
told-smell-unknown = smell not known
told-rolled-crumbles = damp soil crumbles
told-rolled-ball = damp soil makes a ball
told-rolled-ribbon = damp soil makes a ribbon
told-rolled-unknown = how it rolls is not known
told-colour-pale = pale
told-colour-brown = brown
told-colour-dark = dark brown
told-colour-black = black
told-colour-unknown = colour not known
told-last-crop-fed-yes = the last crop was fed
told-last-crop-fed-no = the last crop was not fed
told-last-crop-fed-unknown = whether the last crop was fed is not known
told-winters-mild = mild winters
told-winters-frosty = frosty winters
told-winters-hard = hard winters
told-winters-unknown = winters not known
told-summers-cool = cool summers
told-summers-warm = warm summers
told-summers-hot = hot summers
told-summers-unknown = summers not known
told-rain-little = little rain
told-rain-middling = middling rain
told-rain-much = much rain
told-rain-unknown = rain not known
told-cover-none = under the open sky
told-cover-roof = under a roof
told-cover-tunnel = in a tunnel
told-cover-unknown = cover not known
told-watered-never = never watered
told-watered-when-leaves-hang = watered when leaves hang
told-watered-enough = kept moist
told-watered-unknown = watering not known
told-with-hoe = with a hoe
told-with-fork = with a fork
told-with-spade = with a spade
told-with-tiller = with a tiller
told-with-plough = with a plough
told-with-unknown = nobody knows with what
laid-fingers = { $count ->
    [one] { $n } finger
   *[other] { $n } fingers
}
laid-hands = { $count ->
    [one] { $n } hand
   *[other] { $n } hands
}
