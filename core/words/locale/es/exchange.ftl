# Sitios y anotaciones que se dan a otros programas, y que se toman de ellos.

export-unknown-ending = la terminación de { $file } no nombra ningún formato.
export-entries-csv = las anotaciones se escriben como hoja: dé un archivo que termine en .csv.
export-places = { $count } sitios están en { $file }.
export-entries = { $count } anotaciones están en { $file }.
export-without = { $count } de ellos no tienen contorno en la tierra y están con sus cifras.
export-without-wkt = { $count } de ellos no tienen contorno en la tierra; este formato no guarda nada más de ellos.

import-written = { $count } sitios están en el libro.
import-tried = Solo probado: entrarían { $count } sitios. El libro queda como estaba.
import-passed-over = Se pasaron por alto { $count } elementos sin contorno, caminata ni superficie.
import-place = { $name }: { $what }
import-place-number = Sitio { $number } del archivo: { $what }
import-crosses = el contorno se cruza a sí mismo. Con los lóbulos uno contra otro tiene { $signed } m2; el terreno que rodea es { $covered } m2.
import-crosses-remedy = Revise el orden de los puntos, o tome el terreno que rodea con --repair.
import-no-name = este sitio no tiene nombre.
import-no-name-remedy = Dé uno con --name; si son varios se numeran.
import-name = este nombre no cabe en el libro.
import-twice = otro sitio de este archivo tiene el mismo nombre.
import-twice-remedy = Dé a cada uno su propio nombre.
import-in-book = el libro ya tiene un sitio con este nombre.
import-in-book-remedy = Déle otro nombre en el archivo, o mida de nuevo el sitio del libro con --anew.
import-twice-in-book = el libro tiene más de un sitio con este nombre.
import-kind = { $value } no es ninguna clase de sitio.
import-figure = { $key } no puede ser { $value }.
import-too-large = es más grande de lo que puede ser un sitio (100 km2, o más de 2.000 km de un extremo a otro).
