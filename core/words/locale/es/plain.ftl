## Answers in words, as entries tell them

told-wood-hardwood = madera de frondosas
told-wood-softwood = madera de coníferas
told-wood-mixed = madera de frondosas y de coníferas
told-wood-unknown = madera desconocida
told-pieces-flour = fino como harina
told-pieces-coffee = como café molido
told-pieces-flakes = virutas
told-pieces-matchsticks = como cerillas
told-pieces-bigger = mayor que cerillas
told-pieces-unknown = tamaño desconocido
told-handful-dusty = un puñado suelta polvo
told-handful-damp = un puñado está fresco y húmedo
told-handful-drips = un puñado gotea
told-handful-unknown = humedad desconocida
told-age-fresh = fresco
told-age-months = de algunos meses
told-age-year = de cerca de un año
told-age-years = de algunos años
told-age-unknown = edad desconocida
told-smell-wood = huele a madera
told-smell-earth = huele a tierra
told-smell-sour = huele agrio
told-smell-unknown = olor desconocido
told-rolled-crumbles = el suelo húmedo se desmorona
told-rolled-ball = el suelo húmedo hace una bola
told-rolled-ribbon = el suelo húmedo hace una cinta
told-rolled-unknown = no se sabe cómo se amasa
told-colour-pale = claro
told-colour-brown = pardo
told-colour-dark = pardo oscuro
told-colour-black = negro
told-colour-unknown = color desconocido
told-last-crop-fed-yes = el último cultivo se abonó
told-last-crop-fed-no = el último cultivo no se abonó
told-last-crop-fed-unknown = no se sabe si el último cultivo se abonó
told-winters-mild = inviernos suaves
told-winters-frosty = inviernos con heladas
told-winters-hard = inviernos duros
told-winters-unknown = inviernos desconocidos
told-summers-cool = veranos frescos
told-summers-warm = veranos cálidos
told-summers-hot = veranos muy calurosos
told-summers-unknown = veranos desconocidos
told-rain-little = poca lluvia
told-rain-middling = lluvia media
told-rain-much = mucha lluvia
told-rain-unknown = lluvia desconocida
told-cover-none = a cielo abierto
told-cover-roof = bajo techo
told-cover-tunnel = en túnel
told-cover-unknown = cubierta desconocida
told-watered-never = nunca se riega
told-watered-when-leaves-hang = se riega cuando cuelgan las hojas
told-watered-enough = se mantiene húmedo
told-watered-unknown = riego desconocido
told-with-hoe = con azada
told-with-fork = con horca
told-with-spade = con pala
told-with-tiller = con motoazada
told-with-plough = con arado
told-with-unknown = no se sabe con qué
laid-fingers = { $count ->
    [one] { $n } dedo
   *[other] { $n } dedos
}
laid-hands = { $count ->
    [one] { $n } mano
   *[other] { $n } manos
}
