# Por qué no se hizo algo.

act-unknown-material = la tabla no tiene el material { $name }.
act-refused = { $name } no se pone en ningún lugar donde crezca algo.
act-not-residue = { $name } no es un residuo que se descomponga.
act-not-residue-remedy = Póngalo bajo [[feed]].
act-nothing-there = la cantidad de { $name } no hace ninguna capa en este lugar.
act-nothing-there-remedy = Dé una cantidad mayor que cero y el área del lugar.
act-unknown-feed = la tabla no tiene el abono { $name }.
act-unknown-rules = no hay normas llamadas { $name }.
act-unknown-rules-remedy = Elija entre { $names }.
act-wrong-measure = { $name } está dado en la medida equivocada.
act-wrong-measure-remedy = Los líquidos van con volume_l, los sólidos con amount_kg, y ambos con nitrogen_kg_ha.
act-no-load = no se describe ninguna carga.
act-not-over-years = una maceta se vacía y se llena de nuevo: la vista a años es del suelo.
act-no-load-remedy = Añada un [[put_down]] con fecha, material y cantidad.
act-nothing-happens = en este lugar no ocurre nada.
act-missing = falta { $key }.
act-missing-remedy = Aquí hace falta: { $why }
act-figure = { $key } no puede ser { $value }.
act-figure-between = Está entre { $low } y { $high }.
act-tree-rows = { $count } hileras no pueden ser: un sitio tiene al menos una hilera, y como máximo 100.000, de 100.000 árboles como máximo.
act-no-tree = no hay ningún árbol { $tree } (hilera/árbol) en este sitio.
act-trees-backwards = el árbol { $to } viene antes de { $from } en este recorrido: cámbielos, o diga drive = "same-way" o "serpentine" según se recorren las hileras.
act-no-trees = una carga va al menos a un árbol.
act-nothing-measured = no se midió nada; dé al menos una cifra.
act-before = { $what } es del { $date }; esto sería antes.
act-before-remedy = Dé ese día o uno posterior, o corrija el día de { $what }.
act-more-than-lies = queda el { $percent } % de esta capa; levante eso o menos.
act-nothing-grows = en un camino o un patio no crece nada.
act-nothing-grows-remedy = Levante lo que hay en vez de enterrarlo.
act-closed-already = { $what } ya se cerró.
act-no-blend = una mezcla lleva dos lotes o más, cada uno una vez, con materia seca.
act-read-twice = la zona { $zone } ya tiene una lectura de esa hora.
act-read-twice-whole = esta pila ya tiene una lectura de esa hora.
act-read-twice-remedy = Quite una de las dos, o escriba la hora de cada una: time = "07:30".
act-nothing-left = de este lote no queda nada, o nadie sabe cuánto.
act-nothing-left-remedy = Diga de cuánto se trata: --barrows.
act-no-change = esta anotación no admite ese cambio: { $why }
act-weather = este tiempo no puede ser: { $why }
act-not-there = { $what } no está en el libro.
act-thing-place = este sitio
act-no-pile = una pila lleva uno o más lotes, cada uno una vez, con materia seca.
act-more-than-went-in = en esta pila solo entraron { $kg } kg de masa seca.
act-more-than-went-in-remedy = Revise el peso y la humedad: no puede salir más masa seca de la que entró.
act-thing-pile = esta pila
act-thing-trial = este ensayo
act-thing-last-score = la última puntuación del ensayo
act-trial-names = hay { $names } nombres para { $levels } tratamientos.
act-trial-comparison = { $what } no compara nada.
act-trial-comparison-remedy = Nombre tratamientos del ensayo, cada uno una vez; los pesos de un contraste son enteros y suman cero, como en 3, -1, -1, -1.
act-trial-seed = la semilla { $seed } es demasiado grande para el libro.
act-no-plot = el ensayo no tiene la parcela { $plot }.
act-no-plot-remedy = Sus parcelas van de la { $first } a la { $last }; mire la estaca.
act-plot-lost = la parcela { $plot } se perdió el { $date }.
act-plot-lost-remedy = Retire esa anotación si al final cuenta.
act-scored-twice = la parcela { $plot } ya tiene una puntuación de estas hojas por esta persona en este día.
act-scored-twice-remedy = Corrija esa puntuación; o escriba again = true si se puntuó por segunda vez a propósito.
act-nothing-to-repeat = la parcela { $plot } no tiene una primera puntuación en este día; no hay nada que repetir.
act-trial-open = el ensayo sigue abierto; aún no se dice qué recibió cada parcela.
act-trial-open-remedy = Ciérrelo cuando todo esté puntuado y medido: desde entonces nadie puntúa a ciegas.
act-trial-nothing = en el ensayo no se leyó nada de ese tipo.
act-trial-structure = el trazado del libro no forma un ensayo: { $why }
act-thing-batch = este lote
act-thing-layer = esta capa
act-thing-crop = este cultivo
act-thing-task = esta tarea
act-thing-person = esta persona
act-thing-holding = la finca
act-thing-reference-plot = esta parcela de referencia
act-thing-entry = esta anotación
act-unfit-no-place = no es de ningún sitio.
act-unfit-here-already = ya es de ese sitio.
act-unfit-same-entry = ambas son la misma anotación.
act-unfit-no-load = no es una carga recibida.
act-unfit-other-quantity = las unidades miden cosas distintas.
act-unfit-same-unit = ambas unidades son la misma.
act-unfit-unreadable = no se puede leer.
act-unfit-no-such-amount = no tiene una cantidad en esa unidad.
act-unfit-not-out = no se había retirado.
act-unfit-not-at-odds = no es uno de los cambios en conflicto.
act-soil = el suelo no puede ser así: { $why }
act-model = el modelo de nitrógeno no puede calcular esto: { $why }
act-near = ¿Quiso decir uno de estos: { $names }?

# Formas con el mismo nitrógeno.
equal-bare-nitrogen-mixed = Sin poner nada, nitrógeno mezclado
equal-worked-in-nitrogen-mixed = Mezclado con el suelo, nitrógeno mezclado
equal-on-top-nitrogen-mixed-first = Encima, con el nitrógeno mezclado antes en el suelo
equal-on-top-nitrogen-sprinkled = Encima, con el nitrógeno esparcido sobre la capa
equal-on-top-over-nitrogen = Encima, sobre el nitrógeno
equal-on-top-over-compost = Encima, sobre el compost que lo contiene
equal-composted-first = Compostado antes con él y luego mezclado

dose-quick-on-top = Puesto encima, la descomposición toma aquí alrededor de { $middle } (de { $low } a { $high }).
dose-gives = Este material da nitrógeno en vez de retenerlo; no hace falta una respuesta rápida.

# La entrada propia del modelo.
desk-model-syntax = esto no es una entrada del modelo: { $why }
desk-model-help = Las claves son las de docs/nitrogen-model.md.
desk-model-value = { $key }: { $why }

# Lecturas.
readings-syntax = estas lecturas no se pueden leer: { $why }
readings-help = Un archivo de lecturas tiene [[soil_nitrate]] (date y kg_ha, nitrate_n_ppm o nitrate_ppm), [[draw_test]] o [[leaf]] (date, nutrition_index).
readings-value = { $key } falta, está fuera de su intervalo o fuera del pronóstico.
readings-one-figure = un [[soil_nitrate]] tiene exactamente uno de kg_ha, nitrate_n_ppm y nitrate_ppm.
readings-none = no hay ninguna lectura en este archivo.
act-reading-outside = una lectura de { $key } no cae dentro del año que cubre el pronóstico, o falta su cultivo o su capa.

act-book = el libro no aceptó esto: { $why }

# La demostración.
demo-plays = Recorriendo una temporada inventada
demo-invented = Esta finca, su gente y su temporada son inventadas.
demo-grower = la persona que cultiva (inventada)
demo-joinery = una carpintería (inventada)
demo-helper = Ayudante
demo-count-why = Contado al final de la temporada
demo-batch-lifted = Astillas viejas del camino
demo-bed-bare = Bancal 1, sin poner nada
demo-bed-worked-in = Bancal 2, serrín mezclado
demo-bed-on-top = Bancal 3, serrín encima
demo-bed-over-compost = Bancal 4, encima de compost
demo-bed-over-urine = Bancal 5, encima de orina
demo-bed-composted = Bancal 6, compostado antes
demo-path = Camino central
demo-trees = Hilera de manzanos
demo-batch-sawdust = Serrín de primavera
demo-batch-compost = Compost acabado
demo-batch-composted = Compost de la pila
demo-batch-autumn = Serrín de otoño
demo-batch-manure = Estiércol de otoño
demo-pile = Pila junto a la puerta
demo-trial = Serrín con igual nitrógeno
demo-trial-bare = solo nitrógeno
demo-trial-worked-in = mezclado
demo-trial-over-compost = encima de compost
demo-trial-composted = compostado antes
demo-trial-ample = mezclado, nitrógeno de sobra
demo-batch-chips = Astillas de poda
demo-batch-refused = Polvo de sierra de tableros
demo-wrong-bed = fue al bancal 2, no al 3
demo-note = Las hojas viejas del bancal 2 están pálidas; los demás bancales están verdes.
demo-asked = { $containers } de { $material } en { $place }, { $crop } desde el { $date }: ¿cómo usarlo mejor?
demo-split = { $crop } para el cultivo de todos modos, { $wood } por la madera
demo-report = El informe: { $file }
demo-book = El libro: { $file }, { $entries } anotaciones
demo-next = Para comprobar el libro: kerfbook book verify { $file }
demo-not-ours = este archivo no es el libro de una demostración, así que se queda como está.
demo-not-ours-remedy = Elija otra carpeta con --out.
demo-cannot-replace = no se puede escribir { $file }: { $why }
compare-not-allowed = aquí no se permite mientras no se confirmen las normas locales
compare-not-at-hand = solo para comparar; no hay orina a mano
place-kind-rings = ruedos bajo árboles
wait-composted-spread = Ese montón contiene { $brought } para este lugar; repártalo en al menos { $area }, pues normas como la Directiva de nitratos (91/676/CEE, 1991) permiten { $limit } al año de estiércol. Pregunte qué rige en su zona.

# Palabras que se dan por supuestas.
taken-half-of-what-is-not-clay = la mitad de lo que no es arcilla
taken-cattle-manure = estiércol de vaca
taken-usual-year = el año corriente
taken-carried-off = retirado
taken-bed = bancal
taken-mixed = mezclado
taken-on-top = encima
taken-worked-in = mezclado con el suelo

# Un coste cuyo valor medio es nulo.
cost-up-to = Al cultivo no le cuesta casi nada, { $most } como mucho.
cost-gain-up-to = Al cultivo no le da casi nada, { $most } como mucho.
