# Lo que dicen las pantallas de un teléfono. Los textos sin argumentos son etiquetas de las pantallas; los demás los dice el núcleo.

## Campos
phone-needed = Aquí hace falta algo.
phone-not-a-number = «{ $typed }» no es un número. Escriba cifras, como 2 o 2,5.
phone-not-above-zero = Tiene que ser más de 0.
phone-not-whole = Tiene que ser un número entero.
phone-name-too-long = Caben 40 caracteres como mucho.
phone-choose = Elija uno.
phone-too-many-weeks = Como mucho 52 semanas: lo que dura más es un árbol o un prado.
phone-gap-too-wide = El hueco tiene que ser menor que la distancia hasta el borde de la copa.
phone-no-tree = Escriba cada árbol como fila y árbol, por ejemplo 12/3, con un espacio entre ellos.
phone-too-many-rows = En un lugar caben como mucho 1000 filas.
phone-load-has-no-depth = Una carga se cuenta en recipientes o se pesa.
phone-no-trailer = Diga primero cuánto cabe en su remolque.
phone-nothing-seen = Diga al menos una cosa que haya visto.

## Libros
phone-book-damaged = El libro de este teléfono está dañado. Queda apartado como está; lo que esté bien en él se puede leer en un ordenador.
phone-not-written = No se pudo escribir en el teléfono. Nada de esto está en el libro, y lo que escribió sigue aquí: compruebe que haya espacio y pruebe otra vez.
phone-no-book = En este teléfono todavía no hay ningún libro.

## Cantidades
phone-left = quedan { $amount }

## La respuesta
phone-past-left-out = Lo que había o crecía aquí antes de esta temporada no está en esta respuesta.

## Pantallas
phone-today = Hoy
phone-places = Lugares
phone-put-down = Extender
phone-look = Mirar
phone-book = Libro
phone-place = Lugar
phone-new-place = Lugar nuevo
phone-new-load = Carga nueva
phone-found = Su cuaderno de campo
phone-back = Atrás
phone-save = Guardar
phone-done = Listo
phone-cancel = Cancelar
phone-undo = Deshacer
phone-yes = Sí
phone-no = No
phone-dont-know = No lo sé
phone-in-the-book = En el libro
phone-taken-out = Retirado otra vez
phone-try-again = Probar otra vez
phone-no-opening = El libro no se abre

## Primera vez
phone-found-about = Todo se queda en este teléfono. No hay cuenta ni se envía nada a ninguna parte.
phone-found-name = ¿Cómo se llama su finca, huerta o huerto de frutales?
phone-found-food = Lo que crece aquí es
phone-food-own = para nosotros
phone-food-sold = para vender
phone-food-certified = para vender como ecológico certificado
phone-found-start = Empezar el libro
phone-device = Teléfono

## Hoy
phone-today-first-place = Empiece por un lugar: un bancal, una fila, el suelo bajo los árboles.
phone-today-first-load = Después anote una carga de serrín, astillas o corteza.
phone-today-tasks = Por hacer
phone-today-no-tasks = No hay nada que hacer en las próximas dos semanas.
phone-today-waits = Se está calculando lo que piden los pronósticos.
phone-today-more = Mostrar más

## Lugares
phone-places-none = Todavía no hay ningún lugar en el libro.
phone-places-show = Mostrar
phone-places-list = Lista
phone-places-map = Mapa
phone-map-none = Todavía no se puede dibujar nada: de estos lugares solo se sabe el tamaño. Mida o recorra uno y se dibuja.
phone-place-closed = cerrado
phone-place-happened = Lo que pasó aquí
phone-place-name = Nombre
phone-place-ground = ¿Qué es?
phone-ground-bed = Bancal
phone-ground-row = Fila
phone-ground-rings = Ruedos de árboles
phone-ground-path = Camino
phone-ground-yard = Patio de montones
phone-ground-container = Macetas o cajones
phone-place-by = ¿Cómo da su tamaño?
phone-by-tape = Largo y ancho
phone-by-area = Superficie
phone-length-m = Largo, m
phone-length-ft = Largo, ft
phone-width-m = Ancho, m
phone-width-ft = Ancho, ft
phone-area-m2 = Superficie, m²
phone-area-ft2 = Superficie, sq ft
phone-trees = Número de árboles
phone-radius-m = Del tronco al borde de la copa, m
phone-radius-ft = Del tronco al borde de la copa, ft
phone-gap-cm = Hueco junto al tronco, cm
phone-gap-in = Hueco junto al tronco, in
phone-by-sides = Lados y diagonales
phone-by-one-size = Árboles por su número
phone-by-rows = Filas de árboles
phone-place-by-trees = ¿Cómo están los árboles?
phone-sides-about = Llame A, B, C y D a las esquinas al dar la vuelta. Para un triángulo deje vacíos C–D y D–A.
phone-side-ab = De A a B
phone-side-bc = De B a C
phone-side-cd = De C a D
phone-side-da = De D a A
phone-side-ac = De A a C, en diagonal
phone-side-bd = De B a D, en diagonal, como control
phone-first-row = Número de la primera fila
phone-rows = Cuántas filas
phone-row-trees = Árboles en cada fila
phone-spacing-m = De árbol a árbol, m
phone-spacing-ft = De árbol a árbol, ft
phone-row-spacing-m = De fila a fila, m, si lo sabe
phone-row-spacing-ft = De fila a fila, ft, si lo sabe
phone-missing-trees = Árboles que faltan, como 12/3 13/7
phone-pots = Cuántos
phone-volume-l = En cada uno caben, litros
phone-volume-gal = En cada uno caben, galones
phone-across-cm = Ancho arriba, cm
phone-across-in = Ancho arriba, in

## Una carga
phone-load-material = ¿Qué es?
phone-load-measure = Se cuenta en
phone-load-amount = Cuántos, o cuánto
phone-load-feel = ¿Cómo es un puñado?
phone-load-from = De quién
phone-load-label = Nombre de esta carga
phone-load-take-in = Aceptarla
phone-load-refused = Rechazada y anotada
phone-ask-treated = ¿Lleva madera tratada, pintada o encolada?
phone-ask-diseased = ¿Estaban enfermos los árboles?
phone-ask-salty = ¿Flotaron los troncos en el mar?
phone-ask-medicines = ¿Recibieron medicinas los animales?
phone-ask-weedkillers = ¿Se trató con herbicidas que duran?
phone-feel-dusty = Polvoriento
phone-feel-damp = Fresco y húmedo
phone-feel-drips = Gotea al apretar

## Extender
phone-put-down-where = ¿Dónde?
phone-put-down-what = ¿Qué carga?
phone-put-down-much = ¿Cuánto?
phone-put-down-other = Otra cantidad
phone-put-down-measure = Se cuenta en
phone-run = ¿A lo largo de qué árboles?
phone-run-from = De la fila
phone-run-from-tree = Del árbol
phone-run-to = A la fila
phone-run-to-tree = Al árbol
phone-run-at-end = El último árbol de este lugar ya tiene su carga.
phone-run-about = Déjelos vacíos para todos los árboles.
phone-put-down-how = ¿Cómo la usará?
phone-put-down-say-first = Diga dónde, cuál y cuánto
phone-put-down-thinking = Calculando
phone-answer = La respuesta
phone-barrows = Carretillas
phone-buckets = Cubos
phone-trailers = Remolques
phone-depth = Espesor
phone-mass = Peso
phone-same-again = Otra vez lo mismo
phone-something-else = Otra cosa
phone-way-path = En el camino
phone-way-ring = En ruedo
phone-way-on-top = Encima
phone-put-down-enough = Usar esta cantidad

## Un cultivo
phone-new-crop = Lo que crece aquí
phone-crop-name = Cultivo
phone-crop-hunger = ¿Cuánto come?
phone-hunger-light = Poco, como la lechuga
phone-hunger-middling = Medio, como el tomate
phone-hunger-hungry = Mucho, como la col
phone-crop-weeks = Semanas desde hoy hasta la cosecha

## Mirar
phone-look-where = ¿Dónde está?
phone-look-yellow = Las hojas viejas
phone-yellow-none = Todas verdes
phone-yellow-some = Algo amarillas
phone-yellow-much = Muy amarillas
phone-not-looked = Sin mirar
phone-look-depth-cm = Espesor de la capa, cm
phone-look-depth-in = Espesor de la capa, in
phone-look-rain-mm = Lluvia de hoy en el pluviómetro, mm
phone-look-rain-in = Lluvia de hoy en el pluviómetro, in
phone-look-strip = Tira de suelo, mg/kg (ppm)
phone-look-states = La tira indica
phone-strip-nitrate = Nitrato
phone-strip-nitrate-n = Nitrógeno nítrico

## Libro
phone-book-more = Anotaciones anteriores
phone-book-take-out = Retirar
phone-book-put-back = Reponer
phone-book-sure = ¿Retirar esta anotación? Sigue en el libro, tachada, y se puede reponer.
phone-book-back = ¿Reponer esta anotación? Entonces vuelve a contar.
phone-book-move = Fue en otro lugar
phone-book-unit = Se quería decir otra unidad

## Unidades confundidas
slip = { $meant }, no { $written }
slip-unit-kg = kg
slip-unit-lb = lb
slip-unit-l = L
slip-unit-us-gal = galones
slip-unit-mm = mm
slip-unit-cm = cm
slip-unit-in = pulgadas
slip-unit-m2 = m²
slip-unit-ft2 = pies²

## Ajustes
phone-settings = Ajustes
phone-settings-who = ¿Quién escribe en este teléfono?
phone-settings-nobody = Sin nombre
phone-settings-name = Otra persona
phone-settings-add = Añadir este nombre
phone-settings-language = Idioma
phone-language-en = English
phone-language-es = Español
phone-as-the-phone = Como el teléfono
phone-settings-units = Unidades
phone-units-metric = Métricas
phone-units-us = De EE. UU.
phone-settings-containers = Sus recipientes, llenos al ras
phone-settings-usual = Donde no haya nada, valen la carretilla y el cubo habituales, y ningún remolque.
phone-barrow-l = Carretilla, litros
phone-barrow-gal = Carretilla, galones
phone-bucket-l = Cubo, litros
phone-bucket-gal = Cubo, galones
phone-trailer-m3 = Remolque, m³
phone-trailer-yd3 = Remolque, yardas cúbicas

## Entrega
phone-hand-over = Entregar una copia
phone-hand-over-about = La copia lo contiene todo, también nombres y notas. Se puede leer y comprobar en un ordenador.

## Ensayos
phone-trials = Ensayos
phone-trial = Ensayo
phone-new-trial = Ensayo nuevo
phone-score = Puntuar
phone-trials-none = Todavía no hay ningún ensayo en el libro. Unas parcelas lado a lado, sorteadas, pueden decidir qué forma le conviene a su suelo.
phone-trial-is-open = abierto
phone-trial-is-closed = cerrado
phone-trial-name = Nombre del ensayo
phone-trial-compared = Qué se compara
phone-trial-first = Los demás se comparan con el primero.
phone-trial-a = Primero
phone-trial-b = Segundo
phone-trial-c = Tercero
phone-trial-d = Cuarto
phone-trial-blocks = Cuántos bloques
phone-trial-blocks-about = Cada bloque tiene todos una vez. Se aconsejan cuatro bloques o más; con uno es una demostración.
phone-trial-equal = Aporte el mismo nitrógeno en todos, o nadie podrá decir si fue el residuo o el nitrógeno.
phone-trial-draw = Sortear las parcelas
phone-trial-two = Nombre de dos a seis cosas que comparar.
phone-trial-name-twice = Este nombre ya está puesto.
phone-trial-name-there = El libro ya tiene un ensayo con este nombre.
phone-trial-many-blocks = Como mucho 12 bloques; más se planean en un ordenador.
phone-trial-last = Puntuado por última vez el { $date }: { $scored } de { $plots } parcelas.
phone-trial-blind = Lo que recibió cada parcela se dice al cerrar el ensayo, para que quien puntúa lo haga a ciegas.
phone-trial-layout = Qué va dónde
phone-trial-layout-about = Quien abra esto ya no puntúa a ciegas: que puntúe otra persona.
phone-trial-layout-open = Abrirlo
phone-trial-close = Cerrar el ensayo
phone-trial-close-about = Después de cerrarlo ya no se puntúa nada, y se dice lo que recibió cada parcela.
phone-trial-shows = Qué muestra
phone-trial-nothing = No se leyó en sus parcelas nada que pueda juzgarse.
phone-plot-at = fila { $row }, puesto { $place }
phone-plot = Parcela
phone-score-what = Qué se lee
phone-leaves-old = hojas viejas
phone-leaves-middle = hojas medianas
phone-leaves-young = hojas jóvenes
phone-score-yield = lo cosechado
phone-score-yellow = Amarillo de estas hojas, %
phone-score-picked-kg = Cosechado, kg
phone-score-picked-lb = Cosechado, lb
phone-score-next = Guardar, siguiente
phone-score-skip = Pasar de largo
phone-score-lost = Esta parcela se perdió
phone-score-reason = Por qué se perdió
phone-score-done = Todas las parcelas de hoy están leídas.

## Pilas
phone-piles = Pilas
phone-pile = Pila
phone-new-pile = Nueva pila
phone-read-heat = Medir el calor
phone-turn-pile = Voltear la pila
phone-finish-pile = Deshacer la pila
phone-piles-none = Aún no hay ninguna pila en el libro. El residuo compostado antes es el que menos quita al cultivo.
phone-pile-unread = nadie ha medido aún su calor
phone-pile-last = { $heat } como máximo, { $date }
phone-pile-is-batch = pasó a ser { $batch } el { $date }
phone-pile-name = Nombre de la pila
phone-pile-inside = Qué entra, de cada lote
phone-pile-no-batch = Reciba antes una carga: lo que entra en una pila sale de un lote.
phone-pile-parts = Diga cuánto entra de al menos un lote.
phone-water-l = Agua añadida, litros
phone-water-gal = Agua añadida, galones
phone-pile-rule = ¿Debe cumplir una norma de calor?
phone-pile-no-rule = Ninguna
phone-pile-rule-choose = Elegir una norma
phone-pile-comes-to = En qué resulta
phone-pile-build = Hacer la pila
phone-pile-state = Cómo está
phone-heat-zone = ¿Dónde está la sonda?
phone-heat-c = Calor, °C
phone-heat-f = Calor, °F
phone-heat-smoke = ¿Echa humo o huele a quemado?
phone-heat-more = También profundidad y humedad
phone-heat-depth-cm = Profundidad de la sonda, cm
phone-heat-depth-in = Profundidad de la sonda, in
phone-moisture-pct = Humedad, % de la masa húmeda
phone-heat-next = Guardar, otra zona
phone-heat-smoke-first = Primero aléjese y llame a los bomberos. Anote un calor solo si se midió antes.
phone-heat-perhaps-f = El agua hierve a 100 °C y ninguna pila se calienta más. ¿Son grados Fahrenheit? Entonces elija unidades de EE. UU. en los ajustes. Si la cifra es correcta, aléjese y llame a los bomberos.
phone-heat-beyond = Ninguna pila llega a tanto calor ni a tanto frío: el agua hierve a 212 °F. Mire otra vez. Si la cifra es correcta, aléjese y llame a los bomberos.
phone-turn-save = Ya está volteada
phone-finish-about = Lo que deje vacío se calcula con lo que entró y las pérdidas usuales.
phone-finish-name = Nombre del lote
phone-finish-ratio = C:N de laboratorio
phone-finish-save = Ya es un lote
phone-pile-became = Cerca de { $mass }; se fue { $lost } de la masa seca; C:N { $ratio }.
phone-pile-reckoned = Está calculado, no medido: un análisis del lote dice más.

## Un recorrido
phone-walk = Rodearlo andando
phone-by-walk = Andando
phone-walk-about = Lleve el teléfono a cielo abierto, ande por el borde una vuelta hasta donde empezó, y otra a los cinco minutos. La pantalla puede apagarse entretanto.
phone-walk-start = Empezar a andar
phone-walk-go-on = Seguir andando
phone-walk-stop = Parar aquí
phone-walk-forget = Olvidar este recorrido
phone-walk-trees = ¿Pasa bajo árboles?
phone-walk-begins = Esperando las primeras posiciones.
phone-walk-accuracy = posiciones con { $accuracy } de error
phone-walk-way = { $way } de camino
phone-walk-drawn = El camino hasta ahora: el punto es el comienzo y el anillo, donde está usted.
phone-walk-no-place = De este recorrido no sale ningún lugar. Ándelo otra vez o mida con cinta.
phone-walk-denied = Sin permiso para saber dónde está el teléfono no hay recorrido. Mida con cinta, o dé el permiso en los ajustes del teléfono.
phone-walk-off = La ubicación está apagada en este teléfono. Enciéndala o mida con cinta.
phone-walk-tape = Medir con cinta
phone-walk-notice = Rodeando un lugar
phone-walk-notice-about = Las posiciones se quedan en este teléfono.
phone-place-name-there = En el libro ya hay un lugar con este nombre.
phone-unit-m = m
phone-unit-ft = ft
