# La respuesta: una instrucción, una cantidad, qué dar, cuándo mirar, qué no hacer; después, lo que cuesta.

## Qué hacer. La cantidad sigue tras una coma.
do-worked-in = Entiérrelo a { $depth } de hondo
do-on-top = Póngalo encima, de acolchado
do-over-compost = Extienda { $compost } de compost hecho y ponga el acolchado encima
do-over-urine = Riegue la tierra con { $urine } de orina bien diluida y ponga el acolchado encima
do-composted-first = Compóstelo primero con { $manure } de estiércol de vaca durante { $months } y después entiérrelo
do-composted-first-alone = Compóstelo primero durante { $months } y después entiérrelo
do-path = Póngalo en el camino
do-ring = Póngalo en un anillo al pie de cada árbol
do-nothing = No lo ponga en este sitio

## Cuánto
amount-layer = { $depth }, { $containers }
amount-containers = { $containers }
amount-less-than-load = { $amount }; deje el resto de la carga, esto es lo más que admite este sitio
answer-do-amount = { $do }, { $amount }.
answer-do-only = { $do }.
keep-off-stems = Déjelo a { $gap } de los tallos.
keep-off-trunks = Déjelo a { $gap } de los troncos.

## Qué dar
give-nothing = Por ahora no dé nada.
give-nothing-catching = No dé nada: está reteniendo nitrato, alrededor de { $saved } que se habrían lavado.
give-nothing-legume = Por ahora no dé nada: este cultivo toma del aire parte de su nitrógeno.
give-crop-anyway = No dé nada por la madera; para el cultivo, de todos modos, { $crop }.
give-wood = Dé { $amount } de { $source } por la madera ({ $wood }).
give-crop-and-wood = Dé { $amount } de { $source } por la madera ({ $wood }), además de { $crop } que el cultivo necesita de todos modos.
give-most = Dé { $amount } de { $source } ({ $wood }); es lo más que cabe dar aquí de una vez, y la madera tomaría más.
give-no-source = La madera toma { $wood } que nada de lo que hay a mano puede dar aquí; queda el coste que sigue.

## Cuándo mirar
look-leaves = Mire las hojas viejas el { $date }.
look-layer = Mida el grosor de la capa el { $date }.
look-soil = Mida el nitrato de la tierra el { $date }.

## Qué no hacer
not-dig-in = No lo entierre este año.
not-dig-in-costs = No lo entierre este año: le costaría al cultivo { $cost } más.
not-same-again = No ponga otro tanto este año.
not-same-again-costs = No ponga otro tanto este año: le costaría al cultivo { $cost } más.
not-against-stems = No lo amontone contra tallos ni troncos.
not-spread-more = No lo ponga más grueso.

## Lo que cuesta
answer-cost = — { $cost } { $least_known }
cost-loses = Le cuesta al cultivo alrededor de { $middle } (de { $low } a { $high }).
cost-gains = Le da al cultivo alrededor de { $middle } más (de { $low } a { $high }).
cost-even = No cambia nada claro para el cultivo: entre { $loss } menos y { $gain } más.
cost-loses-or-gains = Le cuesta al cultivo alrededor de { $middle } (entre { $gain } más y { $loss } menos).
cost-gains-or-loses = Le da al cultivo alrededor de { $middle } más (entre { $loss } menos y { $gain } más).
cost-none = No le cuesta al cultivo nada apreciable.
cost-loses-tree = Le cuesta a cada árbol alrededor de { $middle } de nitrógeno (de { $low } a { $high }).
cost-gains-tree = Le da a cada árbol alrededor de { $middle } más de nitrógeno (de { $low } a { $high }).
cost-loses-litre = Le cuesta a cada litro de la maceta alrededor de { $middle } de nitrógeno (de { $low } a { $high }).
cost-gains-litre = Le da a cada litro de la maceta alrededor de { $middle } más de nitrógeno (de { $low } a { $high }).
cost-loses-gallon = Le cuesta a cada galón de la maceta alrededor de { $middle } de nitrógeno (de { $low } a { $high }).
cost-gains-gallon = Le da a cada galón de la maceta alrededor de { $middle } más de nitrógeno (de { $low } a { $high }).
cost-nothing-grows = Aquí no crece nada en este tiempo; retiene alrededor de { $tied } al cabo de { $days }.
hungry-both = El cultivo pasa hambre desde el { $date }; en el bancal desnudo, desde el { $bare }.
hungry-only = El cultivo pasa hambre desde el { $date }; en el bancal desnudo no la pasaría.
hungry-bare-only = El cultivo no pasa hambre en este tiempo; en el bancal desnudo la pasaría desde el { $bare }.
hungry-same = El cultivo pasa hambre desde el { $date }, igual que en el bancal desnudo.
hungry-never = El cultivo no pasa hambre en este tiempo.
hungry-chance = Simulaciones en que el cultivo pasa hambre: { $share }.
tied-up = Retiene { $range } al cabo de { $days }.
release-by = Empieza a devolver nitrógeno hacia el { $date }.
release-not-within = Devolver nitrógeno: { $within }.

## Lo que menos se sabe, y la pregunta que más lo acotaría
least-known = Lo que menos se sabe: { $what }.
least-known-wood = qué madera es
least-known-decay = lo deprisa que se pudre esta madera
least-known-microbes = cuánto nitrógeno toma la descomposición
least-known-carbon-nitrogen = la relación carbono-nitrógeno de la carga
least-known-particle = lo fina que es
least-known-amount = cuánto hay
least-known-moisture = lo mojada que está
least-known-soil-nitrogen = cuánto nitrógeno tiene ahora la tierra
least-known-soil-supply = lo que da la tierra en un año
least-known-soil-water = cuánta agua guarda la tierra
least-known-upward-flux = cuánto nitrógeno sube de la tierra a la capa
least-known-rain = cuánta lluvia vendrá
least-known-temperature = lo cálida que será la temporada
least-known-crop-need = cuánto necesita el cultivo
least-known-feed-loss = cuánto se pierde del abono
least-known-other = varias cosas pequeñas a la vez
narrow-wood = Pregunte de dónde viene: frondosa o conífera, y de qué árbol.
narrow-decay = Vuelva a mirar dentro de un mes: cuánto queda y si está gris por dentro.
narrow-microbes = Una prueba de arrastre de cuatro días con un puñado lo diría.
narrow-carbon-nitrogen = El carbono y el nitrógeno totales de una muestra, en un laboratorio, lo dirían.
narrow-particle = Frote un puñado: ¿harina, café, copos, cerillas o más grande?
narrow-amount = Cuente las carretillas o pese una.
narrow-moisture = Apriete un puñado: ¿suelta polvo, está fresco y húmedo, o gotea?
narrow-soil-nitrogen = Un análisis de nitrato de la tierra antes de plantar lo diría.
narrow-soil-supply = El color de la tierra, su materia orgánica y si el cultivo anterior se abonó.
narrow-soil-water = Amase tierra húmeda: ¿se deshace, hace bola o hace cinta?
narrow-upward-flux = Mirar las hojas viejas en la fecha de arriba lo diría; ningún análisis de tierra puede.
narrow-rain = Anotar la lluvia y los riegos de la temporada lo acota.
narrow-temperature = Nadie conoce aún la temporada; se acota según avanza.
narrow-crop-need = Diga qué se cultiva, o si su apetito es poco, mediano o mucho.
narrow-feed-loss = Cubra el abono o riéguelo, y anote el día.
narrow-other = Ninguna pregunta sola lo acotaría mucho.
narrow-draw-test = Una prueba de arrastre de cuatro días con un puñado lo diría.
narrow-soil-test-later = Un análisis de nitrato de la tierra a las cuatro semanas lo diría.
narrow-leaf = Las hojas viejas a las cuatro semanas, al lado de una parcela bien abonada, lo dirían.
narrow-by = Eso estrecharía el margen en torno a un { $share }.

## Alrededor de la respuesta
wait-composted = Si puede esperar { $months }: compostado primero con { $manure } de estiércol de vaca, le da al cultivo alrededor de { $more } más.
wait-composted-alone = Si puede esperar { $months }: compostado primero, le da al cultivo alrededor de { $more } más.
most-place-takes = Lo más que admite este sitio de esta manera: { $amount }.
most-limited-by-nitrogen = Más pediría dar más de { $limit } de una vez.
most-limited-by-depth = Con más de { $depth } le quita a la tierra aire y agua.
assumption-decides-upward-flux = Este orden depende de un supuesto: cuánto nitrógeno sube de la tierra a la capa. Nadie lo ha medido bien. En su extremo alto, el acolchado le cuesta al cultivo { $high }; en el bajo, { $low }.
assumption-decides = Este orden depende de un supuesto: { $what }. Dentro de su margen, otra manera quedaría primera.
photo-sets-no-dose = Una foto de la hoja acota el margen; nunca fija una dosis.
