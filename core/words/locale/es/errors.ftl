# Lo que no se puede hacer: qué, y qué hacer entonces.

error-unknown-material = El material "{ $material }" no está en la tabla. Los más parecidos: { $nearest }.
error-refused = "{ $material }" se rechaza para cualquier sitio de cultivo.
error-not-residue = "{ $material }" no es un residuo que se pudra. Anótelo como abono.
error-nothing-there = La cantidad de "{ $material }" no llega a hacer una capa en este sitio. Dé una cantidad mayor que cero.
error-unknown-feed = El abono "{ $feed }" no está en la tabla. Los más parecidos: { $nearest }.
error-no-load = No se describe ninguna carga. Añada una con fecha, material y cantidad.
error-missing = Falta { $key }: { $why }.
error-wrong-measure = "{ $feed }" está en una medida que no le toca: los líquidos por volumen, los sólidos por masa, y ambos por su nitrógeno.
error-soil = Esta tierra no puede ser: { $why }.
error-model = El modelo de nitrógeno no puede calcular esto: { $why }.
error-book-not-found = No hay ningún libro en { $path }. Compruebe el nombre, o haga uno con la demostración.
error-book-not-ours = { $path } no es un libro de este programa. No se ha cambiado nada.
error-book-damaged = El libro { $path } está dañado. Se ha apartado como { $aside }; lo que se pudo verificar se conserva.
error-book-missing-entries = Faltan: dispositivo { $device }, anotaciones { $from } a { $to }.
error-book-read-only = No se puede escribir en { $path }. Compruebe los permisos de la carpeta. No se ha cambiado nada.
error-book-not-enrolled = Este equipo no está dado de alta en el libro: puede leerlo, no escribirlo.
error-book-full = El disco o el libro está lleno. No se ha escrito nada de esta anotación.
error-book-newer = Este libro lo escribió una versión posterior del programa. Se puede leer; para escribir, use esa versión.
error-no-such-entry = No hay ninguna anotación { $entry } en este libro.
error-no-such-field = Las anotaciones de tipo "{ $kind }" no tienen el campo { $field }. Tienen { $fields }.
error-field-value = { $field } no puede ser { $value }: { $why }.
error-other = No se ha podido hacer: { $why }.
