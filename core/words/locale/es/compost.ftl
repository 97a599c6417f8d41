# Recetas de pilas y registros de calor.

## Receta
mix-answer = Salen { $mass } con { $moisture } de humedad y una C:N de { $ratio }.
mix-answer-no-nitrogen = Salen { $mass } con { $moisture } de humedad. No tiene nitrógeno, así que apenas se calentará.
mix-water = agua
mix-water-found = Agua que falta: { $amount }, para { $goal } de humedad.
mix-water-add = Añada { $amount } de agua para { $goal } de humedad.
mix-water-much = Le sobran { $amount } de agua para { $goal } de humedad: añada algo seco o deje que escurra.
mix-nitrogen-add = Añada { $amount } para una C:N de { $goal }.
mix-nitrogen-much = Tiene { $amount } más de lo que pide una C:N de { $goal }: añada algo rico en carbono.
mix-air = Cerca de { $space } de la pila es aire.
mix-air-unknown = No se sabe cuánto es aire: pese un cubo de cada ingrediente y dé su densidad aparente.
mix-ingredient = Ingrediente
mix-amount = Cantidad
mix-volume = Volumen suelto
mix-moisture = Humedad
mix-ratio = C:N
mix-found-here = Calculado aquí.
mix-what = Qué
mix-here = Aquí
mix-window = Mejor entre
mix-verdict = Juicio
mix-source = Fuente
mix-from = { $low } o más
mix-to = { $high } o menos
mix-carbon-nitrogen = C:N
mix-free-air-space = Aire en la pila
mix-density = Densidad aparente
mix-acidity = pH
mix-particle = Tamaño de los trozos, cm
mix-oxygen = Oxígeno, %
mix-lies-preferred = bien
mix-lies-acceptable = vale
mix-lies-under = demasiado bajo
mix-lies-over = demasiado alto
mix-no-ingredient = no hay ningún ingrediente en el archivo
mix-ingredient-form = Escriba [[ingredient]] y debajo material = "hardwood sawdust" y wet_kg = 200.
mix-more-than-at-hand = se echa más { $name } de lo que hay
mix-weigh-a-bucket = Dé bulk_density_kg_m3 (pese un cubo: kilos entre litros, por 1000) o wet_kg.
mix-container-unknown = nadie ha dicho cuánto cabe en cada uno de { $name }
mix-container-size = Añada { $line } bajo [containers].
mix-moisture-wet-basis = una humedad de { $value } % de la masa húmeda no deja nada seco
mix-moisture-name-basis = El agua sobre la masa húmeda es menos del 100 %. Si se calculó sobre la masa seca, escriba moisture_oven_dry_pct = { $value }.
mix-more-than-all = { $name } sería más que todo carbono y nitrógeno
mix-check-figures = Revise carbon_pct, nitrogen_pct y carbon_nitrogen: son partes de la masa seca.
mix-unknown-make-up = no se conoce ni el carbono ni el nitrógeno de { $name }
mix-say-make-up = Dé carbon_nitrogen, o nitrogen_pct con carbon_pct; nitrogen_pct = 0 también es una cifra.
mix-nothing-known = no se conoce ninguna cantidad a la que ajustar las demás
mix-say-amount = Dé la cantidad de un ingrediente, o total_kg bajo [goal].
mix-goal-impossible = ninguna pila puede tener esa meta
mix-goal-form = La humedad está entre 0 y 100 %, la C:N por encima de cero.
mix-all-wet = todo lo que hay es más húmedo que { $goal }
mix-add-dry = Añada algo más seco: virutas, astillas o paja secas. O deje que escurra y mida otra vez.
mix-all-dry = todo lo que hay es más seco que { $goal }
mix-add-water = Añada agua como ingrediente.
mix-all-carbon = todo lo que hay tiene más carbono que una C:N de { $goal }
mix-add-nitrogen = Añada algo más rico en nitrógeno: estiércol, hierba fresca, una harina o un abono nitrogenado.
mix-all-nitrogen = todo lo que hay tiene más nitrógeno del que pide una C:N de { $goal }
mix-add-carbon = Añada algo más rico en carbono: serrín, astillas, hojas secas o paja.
mix-not-together = con una C:N de { $ratio } esto queda entre { $driest } y { $wettest } de humedad, y { $goal } queda fuera
mix-together-dry = Añada algo seco con una C:N cercana a la meta, o pida más humedad.
mix-together-wet = Añada agua, o pida menos humedad.
mix-short = hay poco { $name }: hacen falta { $needed } y hay { $at_hand }
mix-get-more = Consiga { $more } más, o escriba adjust = true bajo [goal] para que las otras cantidades puedan bajar.
mix-kept = las cantidades dadas no lo permiten
mix-let-change = Escriba adjust = true bajo [goal] para que puedan cambiar, o deje abierta una cantidad.

## Calor
heat-met = Se cumplen las cifras de { $rule }.
heat-figures-reached = Se alcanzan las cifras de { $rule }. Aquí están de memoria: lea la regla misma antes de darla por cumplida.
heat-not-reached = Aún no llega según { $rule }.
heat-unknown = Según { $rule } no se puede decir: lo que no se midió no cuenta.
heat-too-hot = Caliente el tiempo suficiente, pero más de lo que permite { $rule }.
heat-does-not-apply = { $rule } es para pilas con materia animal. Esta no la tiene, así que no se aplica.
heat-counted-days = Decide la zona { $zone }: { $days } de { $wanted } a { $heat } o más.
heat-counted-hours = Decide la zona { $zone }: { $held } de { $wanted } a { $heat } o más sin pausa.
heat-counted-turnings = { $count ->
    [one] Un volteo en ese tiempo, de { $wanted }.
   *[other] { $n } volteos en ese tiempo, de { $wanted }.
}
heat-still-days = Aún faltan: { $days }.
heat-still-turnings = { $count ->
    [one] Aún falta un volteo.
   *[other] Aún faltan { $n } volteos.
}
heat-still-zones = Falta medir: { $zones }.
heat-missing = Sin medir el { $dates }: un día así no cuenta.
heat-over = Por encima del límite superior el { $dates }.
heat-more-days = { $count ->
    [one] un día más
   *[other] { $n } días más
}
heat-unsaid = La regla no dice si los días deben ser seguidos; la racha más larga es de { $days }. Pregunte.
heat-renamed = { $from } acaba donde empieza { $to }, el { $date }. Si es la misma sonda, dele un solo nombre.
heat-set-aside = Se dejaron fuera las lecturas a otra profundidad que la de la regla ({ $low } a { $high }).
heat-out-of-order = Las lecturas no estaban en orden de tiempo; se han ordenado.
heat-perhaps-celsius = Ninguna lectura pasa de un día templado en grados Fahrenheit. Si son grados Celsius, llame a la columna temperature_c.
heat-fire-now = Nivel de fuego el { $date }: { $level }.
heat-fire-highest = El { $date } estuvo en { $level }.
heat-turn-hot = Voltéela: está demasiado caliente para sus propios organismos.
heat-turn-cooled = Voltéela: se ha enfriado.
heat-turn-airless = Voltéela: le falta aire.
heat-besides = La regla pide además { $list }.
heat-decides = { $work }: { $body }, { $standing }. Solo decide la autoridad local o quien certifica.
heat-zone = Zona
heat-days = Días
heat-turnings = Volteos
heat-first = Primer día
heat-last = Último día
heat-zone-whole = toda la pila
heat-zone-edge = borde
heat-zone-core = centro
heat-zone-base = base
heat-besides-pathogen-test = un análisis de gérmenes
heat-besides-aerobic = aire en toda la pila
heat-besides-start-ratio = una C:N de 25 a 40 al principio
heat-besides-all-heated = que toda ella llegue a ese calor
heat-besides-dry-12 = secar hasta 12 % de humedad
heat-besides-curing = madurar después
heat-besides-particle-12 = trozos de 12 mm como mucho
heat-besides-particle-200 = trozos de 200 mm como mucho
heat-besides-by-products = la autorización que piden los subproductos animales
heat-besides-spore-formers = control de gérmenes que forman esporas
heat-besides-moist-50 = al menos 50 % de humedad
heat-besides-producer-validates = un proceso que el productor fija y demuestra
heat-besides-holds-warm = seguir por encima de 43 °C (110 °F) unas semanas
fire-level-green = verde
fire-level-amber = ámbar
fire-level-red = rojo
fire-level-stop = pare y pida ayuda

## Archivos de lecturas
heat-form = Escriba una primera línea como date,time,zone,depth_cm,temperature_c,turned.
heat-no-reading = no hay ninguna lectura en la tabla
heat-which-scale = { $name } no dice qué grados
heat-name-scale = Llame a la columna temperature_c o temperature_f.
heat-two-scales = hay temperaturas en dos columnas
heat-unknown-column = no hay ninguna columna { $name }
heat-no-date = no hay columna date
heat-no-temperature = no hay columna de temperaturas
heat-no-day = { $value } no es un día
heat-day-form = Escriba primero el año: 2026-05-20.
heat-no-time = { $value } no es una hora
heat-time-form = Escriba horas y minutos: 07:30.
heat-twice = la zona { $zone } se midió dos veces a esa hora; la primera en la línea { $first }
heat-keep-one = Deje una de las dos, o escriba la hora de la segunda.
heat-above-boiling = { $value } °C es más que agua hirviendo
heat-perhaps-fahrenheit = ¿Son grados Fahrenheit? Entonces llame a la columna temperature_f. Si la cifra es cierta, aléjese y llame a los bomberos.
heat-above-boiling-f = { $value } °F es más que agua hirviendo
heat-below-all = { $value } grados es más frío que cualquier pila
heat-look-again = Mire otra vez la cifra. Si una pila está de verdad así de caliente, aléjese y llame a los bomberos.
heat-moisture-basis = Escriba el agua sobre la masa húmeda, menos del 100 %. Desde la masa seca: divida entre 100 más ella misma, por 100.
heat-yes-or-no = { $name } es { $value }
heat-yes-form = Escriba yes, o déjelo vacío.
heat-not-a-number = { $name } es { $value }, que no es un número así
heat-number-form = Escriba solo un número, con punto: 57.5.
heat-unknown-rule = no hay ninguna regla de calor { $name }
heat-known-rules = Reglas conocidas: { $names }.

## Pilas de un libro
pile-built = Hecha el { $date }
pile-ratio = C:N { $ratio } al principio
pile-moisture = { $moisture } de humedad al principio
pile-became = El { $date } pasó a ser { $batch }.
pile-age = Lleva { $days }.
pile-heat = Calor de { $pile }
pile-heat-about = Lecturas de { $pile } por zona durante { $days }, con la línea de su regla y sus volteos.
pile-celsius = °C
pile-fahrenheit = °F
pile-turned = volteada
pile-counts-from = cuenta desde { $heat }
pile-too-hot-above = demasiado por encima de { $heat }

## Si el compost está listo
maturity-too-few-tests = Muy pocas pruebas para darlo por listo: hacen falta su C:N y { $fewest } pruebas de descomposición que coincidan.
maturity-immature = No está listo: al menos una prueba lo dice. Déjelo seguir, manténgalo húmedo y pruebe otra vez.
maturity-mature = Listo, según todas las pruebas juntas.
maturity-very-mature = Bien listo, según todas las pruebas juntas.
maturity-class-immature = no listo
maturity-class-mature = listo
maturity-class-very-mature = bien listo
maturity-test-carbon-nitrogen = C:N { $figure }: { $class } ({ $source })
maturity-test-ammonium-nitrate = Amonio a nitrato { $figure }: { $class } ({ $source })
maturity-test-dioxide-mg-g-day = Dióxido de carbono { $figure } mg C por gramo de materia orgánica y día: { $class } ({ $source })
maturity-test-emergence-pct = Plántulas que salieron, { $figure } % del testigo: { $class } ({ $source })
maturity-test-self-heating-c = Subida en un termo { $figure } °C: { $class } ({ $source })
maturity-test-oxygen-mg-kg-h = Oxígeno { $figure } mg por kg de sólidos volátiles y hora: { $class } ({ $source })
maturity-test-germination-index-pct = Índice de germinación { $figure } %: { $class } ({ $source })
maturity-seedlings-hurt = Las plántulas criadas en él sufrieron, como con herbicidas que sobreviven a los animales y al compost. No lo ponga donde crezcan habas, guisantes, patatas o tomates; pregunte de dónde vino el heno, la paja o el estiércol, y consulte al servicio de asesoramiento local.
maturity-seedlings-well = Las plántulas criadas en él crecieron tan bien como en el testigo limpio.
maturity-cured = Ha curado { $days }, por debajo de { $under }; { $wanted } es lo mínimo ({ $source }).
maturity-cures = Lleva curando { $days }, por debajo de { $under }; pide al menos { $wanted } ({ $source }).
maturity-no-cure = Aún no cura: empieza cuando todas las zonas siguen por debajo de { $under }, y tarda al menos { $wanted } ({ $source }).
pile-ratio-now = Su C:N será ya de { $ratio } ({ $standing }); un análisis dice más.
pile-ash-lost = Según la ceniza de lo que entró y del lote, se fue { $lost } de la masa seca.
pile-ash-at-odds = El lote tiene menos ceniza que lo que entró. La ceniza queda, así que uno de los dos análisis está mal.
pile-ratio-at-end = Su C:N sería de { $ratio } al deshacerla ({ $standing }); un análisis dice más.
maturity-untested = Nadie ha probado si está listo: lo dicen juntos su C:N y dos pruebas de descomposición, y los guisantes criados en él junto a tierra limpia muestran los herbicidas.
