# Lo que dice la orden de escritorio sobre los archivos que escribe la gente. Claves, nombres y valores van como en el archivo.

## Archivos
desk-no-such-file = no existe este archivo. Compruebe el nombre y la carpeta.
desk-may-not-read = no tiene permiso para leer este archivo. Pídalo a su dueño o cópielo a una carpeta propia.
desk-cannot-read = no se puede leer este archivo: { $why }
desk-is-folder = esto es una carpeta; hace falta un archivo.
desk-empty-file = este archivo está vacío. Empiece con uno de los ejemplos de fixtures/scenarios.
desk-too-large = este archivo pasa de { $most } kB, lo más que se lee.
desk-other-program = este archivo es de otro programa ({ $what }), no es texto sencillo.
desk-plain-text-wanted = Escríbalo como texto sencillo en UTF-8; una hoja de cálculo se exporta como CSV.
desk-not-utf8 = este carácter no es UTF-8.
desk-save-as-utf8 = Guarde el archivo de nuevo como texto sencillo con la codificación UTF-8.
desk-cannot-write = no se puede escribir { $file }: { $why }. No se ha cambiado nada.
desk-cannot-make-folder = no se puede crear la carpeta { $file }: { $why }. No se ha cambiado nada.
desk-cannot-print = no se puede imprimir la respuesta: { $why }
desk-cannot-read-key = no se puede usar la clave de este equipo, { $file }: { $why }. Reponga la que tenía, o apártela y dé de alta el equipo de nuevo.
desk-no-randomness = el sistema no da números al azar: { $why }
desk-no-home = no hay carpeta para la clave de este equipo. Ponga en KERFBOOK_HOME una que solo usted pueda leer.

## Forma del archivo
desk-not-toml = no se puede leer esta línea ({ $detail }).
desk-other-form = este archivo parece { $what }, y un escenario es TOML.
desk-toml-form = Una línea es: clave = valor. Los textos y nombres van entre comillas, las listas en [ ] con comas, un comentario tras #.
desk-twice = esto aparece dos veces.
desk-keep-one-line = Deje solo una.
desk-decimal-comma = { $key } lleva coma decimal: { $value }
desk-decimal-comma-in-list = 24 números enteros: ¿eran comas decimales? Escriba 12.5 con punto, y la coma solo entre meses.
desk-unit-after-number = { $key } lleva algo tras el número: { $value }. La unidad ya está en la clave.
desk-quote-open = aquí se abren unas comillas que no se cierran.
desk-close-quote = El texto va entre dos comillas en una línea.
desk-no-equals = en esta línea no hay =.
desk-needs-quotes = { $key } es un texto y va entre comillas.
desk-unknown-section = no hay ninguna sección { $name }.
desk-known-sections = Las secciones son { $names }.
desk-section-once = { $name } solo puede aparecer una vez.
desk-section-repeats = { $name } puede aparecer varias veces y lleva corchetes dobles.
desk-section-is-value = { $name } es una sección, no un valor.
desk-write-header = Escriba { $header } en una línea propia, con sus claves debajo.
desk-unknown-key = { $section } no tiene la clave { $key }.
desk-unknown-key-here = un archivo así no tiene la clave { $key }.
desk-key-belongs = { $key } va en { $section }.
desk-did-you-mean = ¿Quería decir { $name }?
desk-known-keys = Sus claves son { $names }.
desk-missing-key = en { $section } falta { $key }.
desk-missing-key-here = falta { $key }.
desk-missing-section = falta { $section } y, con ella, { $key }.
desk-add-line = Añada { $line } bajo { $section }.
desk-add-line-here = Añada { $line }
desk-one-missing = { $section } necesita una de estas: { $keys }.
desk-one-missing-here = hace falta una de { $keys }.
desk-two-given = { $first } y { $second } aparecen a la vez.
desk-keep-one = Deje solo una de { $keys }.

## Valores
desk-text-for-number = { $key } ha de ser un número sin comillas, no { $value }.
desk-needs-number = { $key } ha de ser un número, no { $value }.
desk-needs-whole-number = { $key } ha de ser un número entero, no { $value }.
desk-not-finite = { $key } es { $value }, que no es un número utilizable.
desk-leave-out-if-unknown = Quite la línea si no se conoce la cifra.
desk-out-of-range = { $key } es { $value }; ha de estar entre { $low } y { $high }.
desk-out-of-range-above = { $key } es { $value }; ha de ser más de { $low } y como mucho { $high }.
desk-needs-text = { $key } ha de ser un texto corto entre comillas, no { $value }.
desk-needs-texts = { $key } ha de ser una lista de nombres entre comillas, no { $value }.
desk-needs-flag = { $key } ha de ser true (sí) o false (no), no { $value }.
desk-needs-date = { $key } ha de ser un día como año-mes-día, no { $value }.
desk-year-out-of-range = { $key } es { $value }; se leen los años de 1900 a 2199.
desk-needs-months = { $key } ha de ser una lista de doce números, enero primero, no { $value }.
desk-not-twelve = { $key } tiene { $count } valores.
desk-twelve-months = Dé doce, enero primero, también al sur del ecuador.
desk-not-a-choice = { $key } no puede ser { $value }.
desk-choose = Puede ser { $names }.
desk-choose-near = ¿Quería decir "{ $name }"? Puede ser { $names }.
desk-write-number = Escriba { $line }
desk-write-like = Escríbalo así: { $line }

## Terreno
desk-latitude-or-evaporation = La evaporación ha de estimarse y hace falta la latitud: añada latitude_deg (norte positivo) bajo [holding], o month_et0_mm_day bajo [weather].
desk-latitude-for-estimate = en la latitud { $value } no se puede estimar la evaporación con la temperatura: más allá de 66° hay días sin alba o sin ocaso.
desk-give-evaporation = Dé month_et0_mm_day bajo [weather].
desk-clay-and-sand = arcilla y arena suman { $sum } %.
desk-check-both = Compruebe ambas cifras.
desk-organic-matter-hint = Si no hay análisis de suelo: arena ligera 1 a 2, franco 2 a 4, tierra rica de huerta 5 a 8 (práctica común).
desk-looks-like-kg-m3 = Parece estar en kg/m3. En g/cm3: { $line }
desk-looks-like-g-cm3 = Parece estar en g/cm3. En kg/m3: { $line }
desk-sampled-without-result = hay un día de muestreo, pero ningún resultado.
desk-add-soil-test = Añada mineral_nitrogen_kg_ha, nitrate_n_ppm o nitrate_ppm, o quite sampled.
desk-more-available-than-capacity = available_water_mm es mayor que field_capacity_mm, del que es una parte.
desk-volume-of-no-container = volume_l es para recipientes, y este lugar no lo es.
desk-say-container = Escriba kind = "container", o quite volume_l.

## Tiempo
desk-date-outside-weather = { $key } es { $date }, y el archivo del tiempo va de { $first } a { $last }.
desk-lengthen-weather = Añada los días que faltan al archivo del tiempo, o quite daily y cuente con el año habitual.
desk-normals-missing = falta { $key }, y el archivo del tiempo no cubre un año entero del que pudiera sacarse.
desk-day-heading = la primera línea del archivo del tiempo es { $text }.
desk-day-separator = las columnas de este archivo del tiempo no se separan con comas.
desk-day-columns = esta línea tiene { $found } columnas, y la primera { $expected }.
desk-day-comma-or-column = ¿Hay una coma decimal? Escriba 12.5 con punto; las comas solo separan columnas.
desk-day-twice = { $date } aparece por segunda vez.
desk-day-order = { $date } va después de { $before }.
desk-day-in-order = Ponga los días en orden, el más antiguo primero.
desk-day-gap = falta { $missing } antes de { $date }.
desk-day-every = Cada día necesita una línea; un día sin lluvia lleva 0.
desk-day-none = no hay ningún día tras la primera línea.
desk-weather-file-whole = no se puede usar el archivo del tiempo { $name }: { $why }
desk-weather-columns = La primera línea nombra las columnas: date,mean_c,rain_mm y, si se sabe, et0_mm. Después una línea por día sin huecos, números con punto.

## Cultivos y cargas
desk-nothing-happens = no se describe ni un cultivo ni una carga.
desk-add-crop-or-load = Añada [[crop]] con name, started y ended, o [[put_down]] con date, material y una cantidad.
desk-ended-before-started = el cultivo acaba el { $ended } y empieza el { $started }.
desk-check-both-days = Compruebe ambos días.
desk-crop-too-long = el cultivo dura { $days } días; se leen como mucho { $most }.
desk-crop-a-year = Escriba un [[crop]] por año para lo que dura más.
desk-crops-overlap = { $key } es { $started }, antes de que acabe el cultivo que termina el { $ended } ({ $other }).
desk-one-crop-at-a-time = Un cultivo cada vez: para una mezcla escriba un [[crop]] con la necesidad de ambos.
desk-midpoint-after-end = midpoint_day es { $value }, y el cultivo dura { $days } días.
desk-midpoint-meaning = Es el número de días desde started hasta la mitad de la absorción.
desk-crop-need = Diga qué necesita el cultivo: name = "cabbage", o uptake_kg_ha = 120, o appetite = "light" (poca), "middling" (media) o "hungry" (mucha).
desk-unknown-crop = el cultivo { $name } no está en la tabla.
desk-unknown-crop-near = ¿Quería decir { $names }? Si no, añada uptake_kg_ha = 120, o appetite = "light" (poca), "middling" (media) o "hungry" (mucha).
desk-unknown-material = el material { $name } no está en la tabla.
desk-unknown-material-near = ¿Quería decir uno de estos: { $names }? "unknown wood" (madera desconocida) también es una respuesta.
desk-unknown-material-any = Nombre la madera y su forma, como "hardwood sawdust" o "softwood chips"; "unknown wood" (madera desconocida) también es una respuesta.
desk-refused-material = { $name } se rechaza para todo lugar donde crece algo. { $caution }
desk-not-residue = { $name } no es un residuo que se descomponga.
desk-give-as-feed = Póngalo bajo [[feed]], si se da por su nitrógeno.
desk-unknown-feed = el abono { $name } no está en la tabla.
desk-unknown-feed-near = ¿Quería decir uno de estos: { $names }?
desk-unknown-feed-any = Puede ser "urea", "blood meal" (harina de sangre), "compost" y otros.
desk-feed-measure = { $name } no se mide con { $key }.
desk-feed-measure-right = Dé { $key }, o nitrogen_kg_ha.
desk-moisture-over-100 = moisture_pct es { $value }; de la masa húmeda no puede ser agua más del 100 %. ¿Se midió sobre base seca?
desk-moisture-dry-basis = Si es así, la cifra sobre base húmeda es { $line }
desk-too-deep = eso hace una capa de { $depth } m en { $area } m2.
desk-too-heavy = eso hace { $load } kg en cada metro cuadrado de { $area } m2.
desk-check-amount-and-area = Compruebe la cantidad, su unidad y area_m2 bajo [place].

## El libro
book-column-entry = Asiento
book-column-date = Fecha
book-column-what = Qué
book-column-by = Quién
book-not-ours = esto no es un libro de este programa; se ha dejado como está.
book-damaged = este libro está dañado ({ $why }). Se ha dejado como está.
book-rebuild-keeps = kerfbook book rebuild { $path } lo aparta y conserva lo que se comprueba.
book-exists = ya hay un archivo con ese nombre; elija otro.
book-withdrawn = este asiento fue retirado. Retire antes su retirada.
book-fixed = este asiento funda el libro o da de alta un equipo y se queda como está.
book-wrong-kind = el asiento nombrado ahí es de otra clase.
book-other = no se ha podido hacer: { $why }
book-locked = otro programa está escribiendo este libro. No se ha escrito nada; inténtelo de nuevo.
book-list-entries = kerfbook book entries muestra cómo se llaman los asientos, por ejemplo 3f2a:12.
book-no-equals = { $text } no es CAMPO=VALOR.
book-set-form = Escriba --set CAMPO=VALOR, por ejemplo --set wet_g=180kg, --set date=2026-04-16 o --set place=3f2a:4.
book-why-date = un día se escribe año-mes-día
book-why-entry = ha de nombrar un asiento de este libro, por ejemplo 3f2a:12
book-why-label = un nombre tiene de 1 a 40 caracteres en una línea
book-why-number = ha de ser un número entero
book-why-unit = ha de ser un número, con una de estas unidades: { $units }
book-why-word = ha de ser uno de { $names }
book-why-not-typed = este campo no se escribe a mano
book-reason-diseased = de plantas enfermas
book-reason-salty = salado
book-reason-medicated = con medicamentos o herbicidas
book-flag-rests-on-unknown = se apoya en un asiento que no ha llegado; fuera de las sumas
book-flag-correction-unread = una corrección no se puede leer y se ha dejado fuera
book-flag-unreadable = no se puede leer; fuera de las sumas
book-finding-unreadable = El asiento { $entry } no se puede leer.
book-finding-misplaced = El asiento { $entry } está en el sitio de otro.
book-finding-other-holding = El asiento { $entry } es de otra explotación.
book-finding-broken = El asiento { $entry } no sigue al anterior: se ha cambiado uno de los dos.
book-finding-backwards = El asiento { $entry } es anterior al que va antes de él.
book-finding-bad-signature = La firma del asiento { $entry } no es de su equipo.
book-finding-not-signed = El asiento { $entry } no es el que se firmó.
book-finding-unsigned = Equipo { $device }: los asientos { $from } a { $to } no llevan firma.
book-finding-not-enrolled = El equipo { $device } no está dado de alta.
book-finding-not-founded = Falta el asiento que funda la explotación.
book-finding-text-changed = Se ha cambiado un texto.
book-finding-projection-differs = Los saldos no coinciden con los asientos. kerfbook book rebuild los calcula de nuevo.
book-finding-file = El archivo está dañado: { $why }

## Ayuda de la línea de órdenes
help-usage = Uso
help-commands = Órdenes
help-command = ORDEN
help-arguments = Argumentos
help-options = Opciones
help-options-of = opciones
help-kerfbook = Lo que hace un residuo leñoso en un bancal: cuánto nitrógeno retiene, cuándo lo suelta y qué hacer mientras tanto.
help-kerfbook-json = Un documento JSON en la salida estándar, también para los errores
help-kerfbook-language = Idioma de todo el texto; el del sistema si no se da
help-kerfbook-units = Unidades de las cifras en el texto, métricas si no se dan; el JSON siempre es métrico
help-kerfbook-help = Mostrar esta ayuda
help-kerfbook-version = Mostrar la versión
help-demo = Poner una temporada inventada en un libro y escribir su informe
help-demo-out = Carpeta para el libro y report.html; kerfbook-demo si no se da
help-demo-seed = Semilla de las cifras; 1 si no se da
help-compare = Poner todas las maneras de usar una carga una junto a otra, frente a no poner nada
help-compare-scenario = Descripción del lugar, su tiempo, sus cargas y cultivos
help-forecast = Calcular una temporada día a día
help-forecast-scenario = Descripción del lugar, su tiempo, sus cargas y cultivos
help-forecast-runs = Número de pasadas, de 1 a 100000; 200 si no se da
help-forecast-seed = Semilla de las pasadas; 1 si no se da
help-forecast-readings = Lecturas de suelo y de hoja que estrechan el margen
help-forecast-model = La entrada propia del modelo en vez de un escenario; trae sus pasadas y su semilla
help-dose = Masa, espesor, cargas y lo máximo que admite este lugar
help-dose-scenario = Descripción del lugar, su tiempo, sus cargas y cultivos
help-feeds = Qué dar y cuándo, para que el cultivo no pase hambre
help-feeds-scenario = Descripción del lugar, su tiempo, sus cargas y cultivos
help-feeds-chance = Probabilidad de hambre que se admite, en tanto por ciento de 0 a 90; 20 si no se da
help-feeds-rules = Normas que obligan, como eu-nitrates; puede repetirse
help-feeds-source = Abono con el que se planea; puede repetirse; los que hay a mano si no se da
help-purpose = Las maneras que sirven para lo que se quiere de una carga, y lo que cuestan en nitrógeno, trabajo y dinero
help-purpose-scenario = Descripción del lugar, su tiempo, sus cargas y cultivos
help-purpose-wanted = Para qué es: weeds (hierbas), water (agua), soil (tierra) o use-up (gastarla)
help-purpose-load_price = Precio de toda la carga, en su dinero
help-purpose-hour_price = Precio de una hora de trabajo
help-purpose-compost_price = Precio de un metro cúbico de compost hecho, para comparar
help-purpose-minutes = Minutos que lleva una carretilla en total
help-purpose-haul = Hasta dónde se lleva la carga, en metros; 30 si no se da
help-rings = Suelo bajo los anillos de los árboles: lo que se solapa cuenta una vez, los huecos de los troncos no cuentan
help-rings-file = Tabla con las columnas x_m,y_m,radius_m y, si se quiere, gap_m
help-pile-volume = Volumen de un montón o de una carga a partir de unas medidas
help-pile-volume-shape = Su forma y sus medidas
help-book = El libro: listar, comprobar, rehacer, corregir
help-book-entries = Listar los asientos, el más antiguo primero
help-book-entries-file = El libro
help-book-verify = Comprobar cada asiento y cada firma; nombrar lo que falta o ha cambiado
help-book-verify-file = El libro
help-book-rebuild = Calcular de nuevo todos los saldos desde los asientos
help-book-rebuild-file = El libro
help-book-correct = Cambiar campos de un asiento, o retirarlo, con un motivo; el primero sigue legible
help-book-correct-file = El libro
help-book-correct-entry = El asiento, como lo muestra "book entries"
help-book-correct-reason = Por qué
help-book-correct-set = Un campo y su valor correcto; puede darse varias veces
help-book-correct-withdraw = Retirar el asiento

## Líneas de órdenes erróneas
usage-missing = falta esto: { $names }
usage-unknown = { $name } no se conoce aquí.
usage-unknown-command = no hay ninguna orden { $name }.
usage-no-command = diga qué hacer: { $names }
usage-no-value = { $name } necesita un valor.
usage-value = { $name } no puede ser { $value }.
usage-conflict = { $first } y { $second } no pueden ir juntos.
usage-other = no se puede leer esta línea de órdenes.
usage-near = ¿Quería decir { $name }? --help muestra cómo se usa la orden.
usage-help = --help muestra cómo se usa la orden.
