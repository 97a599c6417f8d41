# Lo que le pasa a un libro, y qué hacer entonces.

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
