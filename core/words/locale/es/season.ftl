# Lo que hay, lo que queda y lo que toca hacer: la temporada según el libro.

## Lo que toca hacer
today-nothing = Nada que hacer hasta el { $date }.
today-heading = Lo que toca hacer el { $date } y en los { $days } días siguientes
today-no-day = sin fecha
today-overdue = atrasado
today-for = para { $person }
today-holding = La finca
todo-look = Mirar las hojas viejas
todo-feed = Dar nitrógeno
todo-top-up = Reponer la capa
todo-check-gap = Revisar la separación a los troncos
todo-water = Regar
todo-test = Analizar
todo-dig-in = Decidir: enterrar, levantar, o dejarla y plantar a través
todo-air = Airear el montón
todo-other = Hacer
todo-read-heat = Medir el calor
todo-turn = Voltear la pila
todo-keep-away = Alejarse y llamar a los bomberos
reason-ordered = según el encargo
reason-ordered-text = { $text }
reason-forecast-hungry = el pronóstico que se siguió manda mirar; el cultivo puede pasar hambre desde el { $date }
reason-forecast = el pronóstico que se siguió manda mirar
reason-planned = según el plan de abonado: { $amount } de { $source }, { $nitrogen }
reason-settled = la capa ha bajado a unos { $lies }; se querían { $wanted }
reason-settled-unknown = la capa ha bajado
reason-gap-unseen = nadie ha mirado desde el { $date }
reason-gap-closed = se encontraron { $gap }; se quieren { $wanted }
reason-emitters-blocked = se encontraron { $count } goteros tapados
reason-dry = { $came } de agua en { $days } días; un cultivo quiere { $wanted }
reason-draw-unknown = no se sabe cuánto nitrógeno toma aún: prueba de arrastre o de plántulas antes de esparcirlo
reason-draw-unknown-from = se levantó de { $place }; no se sabe cuánto nitrógeno toma aún: prueba de arrastre o de plántulas antes de esparcirlo
reason-before-hunger = un análisis de nitrato dice ahora si llega el hambre; puede llegar desde el { $date }
reason-heap-unsmelled = lleva ahí desde el { $date } y puede haberse agriado; huélalo antes de esparcirlo
reason-mulch-before-preparation = hay un acolchado y el cultivo termina hacia el { $date }
reason-sour = agrio; apto desde el { $from } como pronto, y si sigue el olor espere hasta el { $until }
reason-heat-unread = nadie ha medido su calor desde el { $date }
reason-pile-hot = el { $date } se midieron { $heat }: una pila así de caliente se mide cada día
reason-pile-burns = el { $date } echaba humo o estaba demasiado caliente; no la abra
reason-rule-unmet = { $rule } aún no se cumple, y un día sin medir no cuenta
reason-rule-turnings = { $count ->
    [one] { $rule } pide { $n } volteo más
   *[other] { $rule } pide { $n } volteos más
}
reason-turn-hot = está demasiado caliente para sus propios organismos
reason-turn-cooled = se ha enfriado y aún le queda por descomponer
reason-turn-airless = le falta aire
reason-pile-dry = se midió { $moisture } de humedad; con menos de { $least } apenas trabaja

## Lo que hay
stock-nothing = No hay ningún lote en este libro.
stock-batch = Lote
stock-material = Qué es
stock-came = Entró
stock-went = Salió
stock-left = Queda
stock-counted = contado el { $date }
stock-notes = Ojo
stock-overdrawn = salió más de lo que había; un recuento lo arregla
stock-unknown = { $count } usos de tamaño desconocido
stock-sour = agrio
stock-treatment-unknown = no se sabe si está tratado
stock-unsettled = dos correcciones esperan a una persona
stock-seedlings-hurt = las plántulas criadas en él sufrieron: no donde crezcan habas, guisantes, patatas o tomates
stock-not-ready = una prueba dice que no está listo
stock-doubtful = descansa en una anotación dudosa
stock-unweighed = sin medir
stock-none = nada
stock-short = faltan { $mass }, { $containers }
stock-in-containers = { $mass }, { $containers }

## Anotaciones de un archivo
enter-warnings = Lo que esto cambia:
enter-cautions = Ojo:
enter-written = { $count } anotaciones están en el libro.
enter-tried = Solo probado: entrarían { $count } anotaciones. El libro sigue como estaba.
enter-stopped = No se escribió nada. { $warnings }
enter-even-so = Escríbalo de todos modos con --even-so.
enter-no-person = No hay en el libro ninguna persona de nombre { $name }.
enter-no-time = { $value } no es una hora del día.
enter-write-time = Escríbala así: time = "07:30".
enter-perhaps-fahrenheit = ¿Son grados Fahrenheit? Entonces escriba temperature_f. Si la cifra es cierta, aléjese y llame a los bomberos.
enter-two-of-a-name = Dos se llaman { $name }.
enter-two-of-a-name-remedy = Dé primero otro nombre a uno de ellos en el libro (book correct).
enter-name-first = Nómbrelo antes: con una fila propia delante de esta.
enter-unknown-name = Nada en el libro se llama { $name }.
enter-no-tree = { $value } no nombra ningún árbol: escriba la hilera y el número del árbol en ella, desde 1.
enter-no-task = No hay aquí ninguna tarea abierta de esa clase.
enter-no-task-remedy = today muestra lo que está abierto.
enter-blend-amounts = Una mezcla necesita tantas cantidades como lotes, todas en wet_kg o todas en barrows.
enter-which-layer = Aquí hay más de una capa; diga de qué lote vino.
enter-nothing-lies = Aquí no hay nada que levantar.
enter-no-such-crop = Aquí no hay { $name }.
enter-no-such-crop-remedy = Nombre un cultivo que empezó aquí y no ha terminado.
enter-dig-in-costs = Labrar { $place } hasta { $depth } entierra lo que hay encima: le cuesta al cultivo unos { $lost }, y a los 60 días hay { $tied } más retenidos.
enter-dig-in-ties = Labrar { $place } hasta { $depth } entierra lo que hay encima: a los 60 días hay { $tied } más retenidos. Ahora no crece nada ahí.

## Un sitio
place-lies = Lo que hay aquí
place-nothing-lies = Aquí no hay nada puesto.
place-layer = { $batch }, { $days } de edad: { $depth }{ $state }
place-dug-in = , enterrado el { $date }
place-lifted = , { $share } levantado
place-depth-now = En total unos { $depth }.
place-top-up = Reponer hacia el { $date } ({ $earliest } a { $latest }): se pierden { $loss } al año ({ $source }).
place-top-up-now = Ya está por debajo de { $wanted }: reponer. Se pierden { $loss } al año ({ $source }).
place-hungry = El cultivo puede pasar hambre desde el { $early }, en el caso medio desde el { $date }; en la tierra desnuda desde el { $bare }.
place-hungry-middle = El cultivo puede pasar hambre desde el { $early }; en la mayoría de los casos no.
place-not-hungry = El cultivo no pasa hambre en nueve casos de cada diez.
place-no-crop = Aquí no crece nada ahora ni pronto.
place-chance = Probabilidad de hambre { $chance }.
place-cost = Lo que hay aquí le cuesta al cultivo unos { $lost }.
place-tied = Retenido hoy por la descomposición: { $tied }.
place-mineral = Nitrógeno mineral hoy: { $mineral }.
place-left-out = Fuera de las sumas: { $entry }, { $why }.
place-readings = Pesado con { $count } lecturas; cuentan { $runs } casos.
why-no-amount = no se sabe cuánto
why-not-in-table = no está en las tablas lo que es
why-refused = se rechazó
why-ends-before-start = termina antes de empezar
why-nothing-grows = ahí no crece nada
why-lifted-too-much = se levantó más de lo que había
why-not-that-day = ese día no había nada de ello
why-circle = vuelve al sitio del que vino
why-no-figure = no tiene ninguna cifra que el modelo pueda usar
why-plain-answer = se respondió a ojo
why-old-material = es de material ya descompuesto
why-stale = es demasiado antiguo para empezar
why-before-first = es anterior al primer día mirado
why-impossible = sus cifras no dan nada que el modelo pueda sostener
why-not-there = lo que nombra no está

## Pronósticos juzgados
judge-never = nunca
judge-where = Sitio
judge-when = Leído el
judge-what = Qué
judge-foretold = Pronosticado (P10 a P90)
judge-read = Leído
judge-inside = dentro
judge-outside = fuera
judge-mineral = nitrógeno mineral
judge-hungry = hambre
enter-scores-unlike = hay { $plots } parcelas en plots y { $scores } valores en yellow_pct: cada parcela tiene una puntuación.
