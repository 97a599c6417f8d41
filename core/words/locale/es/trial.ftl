# Parcelas lado a lado: el plan y lo que resultó.

## Lo que se puede decir
trial-more = Las parcelas con { $b } dieron { $difference } más que las de { $a } (probablemente entre { $low } y { $high }). Una diferencia así de grande sería rara si { $b } no hiciera nada ({ $rarity }).
trial-less = Las parcelas con { $b } dieron { $difference } menos que las de { $a } (probablemente entre { $low } y { $high }). Una diferencia así de grande sería rara si { $b } no hiciera nada ({ $rarity }).
trial-yellower = Las parcelas con { $b } amarillearon más que las de { $a }, en { $difference } puntos (probablemente entre { $low } y { $high }). Una diferencia así de grande sería rara si { $b } no hiciera nada ({ $rarity }).
trial-greener = Las parcelas con { $b } amarillearon menos que las de { $a }, en { $difference } puntos (probablemente entre { $low } y { $high }). Una diferencia así de grande sería rara si { $b } no hiciera nada ({ $rarity }).
trial-seen-more = En estas parcelas { $b } dio { $difference } más que { $a }; es lo que se vio, no lo que quedó demostrado.
trial-seen-less = En estas parcelas { $b } dio { $difference } menos que { $a }; es lo que se vio, no lo que quedó demostrado.
trial-not-shown = Este ensayo no mostró una diferencia entre { $b } y { $a }. Pudo pasar por alto una menor de unos { $missed }. Eso no prueba que sean iguales.
trial-not-shown-yellow = Este ensayo no mostró una diferencia entre { $b } y { $a }. Pudo pasar por alto una menor de unos { $missed } puntos. Eso no prueba que { $b } no haga daño.
trial-none-shown = Este ensayo no mostró una diferencia entre ninguno de ellos. Pudo pasar por alto una menor de unos { $missed }. Eso no prueba que sean iguales.
trial-could-miss = Un ensayo de este tamaño podría no haber visto diferencias menores de unos { $missed }.
trial-could-miss-yellow = Un ensayo de este tamaño podría no haber visto diferencias menores de unos { $missed } puntos.
trial-within-margin = Cualquier diferencia entre { $b } y { $a } es menor que los { $margin } que usted dijo que importan.
trial-too-small = Con { $count } ningún resultado puede convencer: nada de lo que pudiera salir sería más raro que { $rarity } por puro azar. Tómelo como un vistazo, no como una prueba.
trial-thin = { $count } son pocos: se aconsejan { $asked } o más.
trial-disagree-not = Según la tabla de varianzas los tratamientos difieren ({ $table } por puro azar); reordenando las parcelas como se sortearon es menos raro ({ $reordering }). Cuenta el reordenamiento: no queda demostrado.
trial-disagree-shown = Según la tabla de varianzas no se muestra una diferencia ({ $table } por puro azar); reordenando las parcelas como se sortearon es más raro ({ $reordering }). Cuenta el reordenamiento: los tratamientos difieren en algo, y los intervalos no dicen en qué.
trial-interaction = Lo que hace un factor depende del otro: lea las medias de cada combinación, no las de cada factor por su cuenta.
trial-combination = { $main } con { $sub } { $mean } ({ $plots })
trial-combinations = Medias de las combinaciones: { $means }.
trial-drives = Una parcela ({ $plot }) decide este resultado; mírela antes de concluir.
trial-odd = Una parcela ({ $plot }) encaja mal con las demás; vuelva a mirarla.
trial-lost = { $lost } de { $planned } parcelas no tienen valor; las demás se ajustaron como están.
trial-field-and-season = Vale para este campo y esta temporada.
trial-cause = Que amarillee más encaja con falta de nitrógeno; confírmelo con un análisis de hoja o de suelo.
trial-demonstration = Con uno de cada, esto es una demostración, no un ensayo: describa lo que ve y no concluya nada.
trial-too-many-lost = { $lost } de { $planned } parcelas no tienen valor, más de la cuarta parte: sin veredicto.
trial-level-lost = No queda ninguna parcela de { $treatment }: sin veredicto.
trial-not-tied = Las parcelas que quedan no enlazan todos los tratamientos entre sí: sin veredicto.
trial-no-spread = Las parcelas de un mismo tratamiento no difieren en nada una vez descontados los bloques: sin veredicto. Mire si se copiaron valores o si la escala es demasiado gruesa.
trial-one-in = más o menos 1 de cada { $n }
trial-one-in-million = menos de 1 de cada millón
trial-not-rare = más veces sí que no
trial-count-pairs = { $count ->
    [one] { $number } par
   *[other] { $number } pares
}
trial-count-blocks = { $count ->
    [one] { $number } bloque
   *[other] { $number } bloques
}
trial-count-plots = { $count ->
    [one] { $number } parcela por tratamiento
   *[other] { $number } parcelas por tratamiento
}

## Tablas de un ensayo terminado
trial-treatment = Tratamiento
trial-plots = Parcelas
trial-mean = Media
trial-likely = Probablemente entre
trial-letters = Letra
trial-letters-about = Dos medias que comparten una letra no se ha mostrado que difieran (todos los pares juntos).
trial-source = Entre
trial-degrees = Grados de libertad
trial-squares = Suma de cuadrados
trial-mean-square = Cuadrado medio
trial-ratio = Razón al error
trial-rarity = Por puro azar
trial-line-error = parcelas (error)
trial-line-error-main = parcelas principales (error)
trial-line-error-sub = columnas (error)
trial-line-error-crossing = cruces (error)
trial-line-total = todas las parcelas
trial-comparisons = Diferencias
trial-comparison = { $b } menos { $a }
trial-difference = Diferencia
trial-by = Según
trial-method-dunnett = todos contra el testigo (Dunnett)
trial-method-tukey = todos los pares (Tukey)
trial-method-lsd = nombrado de antemano
trial-method-contrast = contraste
trial-spread = Las parcelas de un mismo tratamiento difieren en un { $variation } de la media (grados de libertad del error: { $degrees }).
trial-reordered-exact = Reordenando las parcelas como se sortearon, de las { $arrangements } maneras: { $rarity } por puro azar.
trial-reordered-drawn = Reordenando las parcelas como se sortearon, { $arrangements } maneras de muchas: { $rarity } por puro azar.
trial-ranks = Solo con los rangos ({ $test }): { $rarity } por puro azar.
trial-curves = Las notas de la temporada pasaron a un número por parcela: la media de los días { $from } a { $to }.
trial-visits-drawn = { $count ->
    [one] Una visita que faltaba entre otras dos se trazó en línea recta.
   *[other] { $n } visitas que faltaban entre otras dos se trazaron en línea recta.
}
trial-visits-left-out = { $count ->
    [one] Se dejó fuera una visita de un extremo que no tenían todas las parcelas: se comparan en los días que comparten.
   *[other] Se dejaron fuera { $n } visitas de un extremo que no tenían todas las parcelas: se comparan en los días que comparten.
}
trial-visits-apart = Las parcelas se puntuaron en días distintos y tienen menos de dos en común: la última nota de cada una vale por ella, así que el resultado lleva dentro la diferencia de días. Puntúe todas las parcelas los mismos días.
trial-block-lacks = { $block } no tiene valor de { $treatment }.

trial-of-factor = { $factor }: { $said }
trial-page-title = Parcelas lado a lado: { $response }
trial-dots-title = Cada parcela, según { $factor }
trial-dots-about = Un aro es una parcela, o la media de sus parcelas en un bloque; las líneas unen los aros de un bloque. La línea gruesa es la media con su intervalo probable.
trial-residuals-title = Lo que deja el ajuste, parcela a parcela
trial-residuals-about = Cuanto más llena una parcela, más lejos está su valor de lo que anuncian tratamiento y bloque. Vecinas todas altas o todas bajas señalan al suelo; una sola llena, a un descuido.

## Qué está mal en un archivo de parcelas
trial-form = La primera línea nombra las columnas, luego una línea por parcela; una parcela perdida no lleva nada, o NA, como valor.
trial-separator = las columnas de este archivo no están separadas por comas.
trial-no-column = no hay columna { $name }.
trial-columns-are = Las columnas son { $names }.
trial-no-rows = no hay ninguna parcela tras la primera línea.
trial-too-many = más de { $most } líneas de parcelas; un ensayo tiene menos.
trial-empty-cell = { $name } está vacío.
trial-text = { $name } es { $value }; hace falta un número.
trial-percent = { $name } es { $value }; los porcentajes van de 0 a 100.
trial-twice = esta es una segunda parcela del mismo tratamiento en el mismo bloque; la primera está en la línea { $line }.
trial-twice-help = Deje una de ellas, o nombre las visitas con --day. Varias muestras de una parcela se promedian antes: no son repeticiones.
trial-square-twice = un tratamiento está dos veces en una fila o columna; el otro está en la línea { $line }. Un cuadrado latino lo tiene una vez.
trial-square-unequal = { $rows } filas, { $columns } columnas y { $treatments } tratamientos; un cuadrado latino tiene los mismos de cada.
trial-one-treatment = hay menos de dos tratamientos; no se puede comparar nada.
trial-no-pairs = hay { $treatments } tratamientos; los pares tienen dos.
trial-nothing = ninguna parcela tiene valor.
trial-curve-order = una parcela tiene dos notas de un mismo día.
trial-curve-short = hay menos de dos días en que se puntuaran todas las parcelas; no se puede trazar su curso.
trial-needs-plot = Con --day, en este diseño las parcelas se distinguen por una columna que se nombra con --plot.
trial-needs-option = el diseño { $design } necesita { $option }.
trial-see-help = Vea kerfbook trial --help.
trial-no-level = { $value } no es ningún nivel de { $name }.
trial-levels-are = Los niveles son { $names }.
trial-bad-pair = { $value } no es un par de niveles; escriba A:B.
trial-bad-contrast = { $value } no es un contraste; escriba niveles con pesos que sumen 0, como A=-1,B=0.5,C=0.5.

## El plan
plan-answer = { $design }, { $plots }: trácelo como está dibujado, recórralo en orden y puntúe por número de parcela.
plan-plots = { $count ->
    [one] { $number } parcela
   *[other] { $number } parcelas
}
plan-design-pairs = Pares lado a lado
plan-design-strips = Franjas
plan-design-crd = Completamente al azar
plan-design-rcbd = Bloques completos al azar
plan-design-latin = Cuadrado latino
plan-design-split-plot = Parcelas divididas
plan-design-strip-plot = Franjas cruzadas
plan-seed = Semilla { $seed } ({ $generator }, versión { $version }). Apúntela: vuelve a dibujar el mismo plan.
plan-seed-drawn = No se dio semilla; esta salió al azar: seed = { $seed }. Escríbala en el archivo.
plan-refused = { $count ->
    [one] Un sorteo anterior se rechazó, por un motivo del campo; este es el siguiente.
   *[other] { $n } sorteos anteriores se rechazaron, por motivos del campo; este es el siguiente.
}
plan-demonstration = Con uno de cada, esto es una demostración, no un ensayo: se puede describir, no juzgar.
plan-too-small = Nada de lo que pudiera salir en un ensayo de este tamaño sería más raro que { $rarity } por puro azar. Tómelo como un vistazo, o trace más.
plan-few = { $number } repeticiones son pocas: se aconsejan { $asked } o más.
plan-smallest = Lo más raro que podría salir por puro azar: { $rarity }.
plan-square-few = El reordenamiento no puede juzgar un cuadrado tan pequeño; su tabla de varianzas se apoya solo en la curva normal.
plan-detectable = Si las parcelas de un tratamiento difieren en un { $variation }, encuentra una diferencia del { $difference } de la media cuatro veces de cada cinco, y puede pasar por alto las menores.
plan-needed = Para encontrar un { $difference } de la media cuatro veces de cada cinco harían falta { $replicates } bloques.
plan-needed-more = Para encontrar un { $difference } de la media cuatro veces de cada cinco harían falta más de { $replicates } bloques.
plan-unequal-nitrogen = Los tratamientos aportan nitrógeno desigual ({ $low } a { $high }): nadie podría decir si fue el residuo o el nitrógeno. Complete según la lista.
plan-nitrogen-unknown = No se dice qué nitrógeno aportan los tratamientos (nitrogen_kg_ha); aporte lo mismo en cada uno.
plan-reference = Añada en cada bloque una parcela con { $residue } y nitrógeno de sobra: distingue el nitrógeno retenido por la descomposición de otras causas de amarilleo.
plan-guard = De cada parcela se miden { $net } de dentro; se dejan fuera { $guard } a cada lado.
plan-no-net = No queda nada dentro de las guardas: haga las parcelas más anchas o guard_m más pequeño.
plan-blind = Las etiquetas y la hoja de notas llevan solo números de parcela. Quien abre el plan o la clave deja de puntuar a ciegas.
plan-field = Plano del campo
plan-plot = Parcela
plan-walk = Recorrido
plan-block = Bloque
plan-treatment = Tratamiento
plan-key = Clave
plan-top-up = Completar
plan-brings = Aporta
plan-nothing = nada
plan-written = Escrito: { $files }.
plan-map-title = Plano del campo de { $trial }
plan-map-about = { $rows } filas de parcelas; el número de cada parcela con la letra de su tratamiento, recorridas fila a fila, una de cada dos al revés.
plan-start = inicio
plan-labels = Etiquetas
plan-steps = Puntúe la parte amarilla de las hojas viejas en porcentaje, por estos pasos: { $steps }. Diez plantas u hojas por parcela, y su media; cada bloque entero una sola persona.
plan-cannot-lay-out = este diseño no se puede trazar: { $why }.
plan-one-treatment = tiene menos de dos tratamientos
plan-no-plot = un tratamiento no tiene parcela
plan-too-many = tiene más de { $most } parcelas
plan-name-twice = { $name } está dos veces entre los tratamientos.
plan-square-blocks = un cuadrado latino tiene tantas filas como tratamientos; blocks sobra.
plan-two-factors = un diseño de dos factores los nombra con main y sub.
plan-one-factor = main y sub son para split-plot y strip-plot; aquí se listan los tratamientos.
plan-pairs-two = los pares tienen dos tratamientos.
plan-no-check = { $name } no es ninguno de los tratamientos.

trial-agreement = { $count ->
    [one] Una parcela se puntuó por segunda vez: las dos puntuaciones distan { $points } puntos.
   *[other] { $number } parcelas se puntuaron por segunda vez: las dos puntuaciones distan { $points } puntos de media.
}
trial-block-shared = Más de una persona puntuó el bloque { $block } el { $date }: lo que difieren los ojos queda entre sus parcelas. Que una sola persona puntúe cada bloque entero.

plan-in-book = En el libro como anotación { $entry }. Ninguna pantalla del libro dice qué recibió una parcela antes de cerrar el ensayo; quien lea este plan ya no puntúa a ciegas.
plan-plots-no-size = las parcelas no tienen tamaño y no pueden ser lugares.
plan-plots-no-size-help = Dé width_m y length_m de una parcela, o quite --plots.
plan-in-book-twice = el libro ya tiene un ensayo llamado { $name }.
plan-in-book-twice-help = Dé otro nombre a este, o retire el otro.
plan-needs-name = un ensayo en un libro necesita un nombre.
plan-needs-name-help = Escriba por ejemplo: name = "Astillas en judías"
plan-factors-two = factors nombra los dos factores de parcelas divididas o en franjas cruzadas.
trial-which = el libro tiene varios ensayos.
trial-which-no = el libro no tiene ningún ensayo.
trial-which-help = Elija uno con --name: { $names }
trial-which-none = Trace uno: kerfbook plan ENSAYO.toml --book LIBRO
trial-no-design = una tabla de parcelas necesita --design: cómo se trazaron.
trial-no-response = una tabla de parcelas necesita --response: la columna de lo medido.
trial-book-response = { $value } no es nada que se lea en parcelas.
trial-book-response-help = Elija entre { $names }.
trial-book-option = { $option } va con una tabla de parcelas; un libro lo sabe por el trazado.
trial-book-of = { $trial }: { $measured }
measured-yellow = hoja amarilla, media de la temporada, %
measured-last-yellow = hoja amarilla en la última visita, %
measured-most-yellow = hoja amarilla máxima, %
measured-yield = cosecha de la parcela neta, kg
measured-weeds = suelo bajo hierbas, %
measured-soil-moisture = agua en el suelo, % en volumen
measured-stand = plantas en pie
trial-row = Fila
trial-column = Columna

## Un ensayo abierto
trial-open = { $trial } sigue abierto. Hasta dónde ha llegado:
trial-open-unscored = Todavía no se ha puntuado ninguna parcela.
trial-open-day = Día
trial-open-layer = Hojas
trial-open-scored = Puntuadas
trial-open-missing = Pasadas de largo
trial-open-of = { $scored } de { $plots }
trial-open-lost = Parcelas perdidas: { $numbers }.
trial-open-measured = Parcelas en las que se midió algo: { $number }.
trial-open-blind = Lo que recibió cada parcela se dice al cerrar el ensayo (trial_closed): hasta entonces quien puntúa lo hace a ciegas.
trial-layer-old = viejas
trial-layer-middle = medianas
trial-layer-young = jóvenes

## Una hoja de notas rellena
scores-empty = en esta hoja no se leyó nada de ninguna parcela.
scores-form = Cada línea lleva el número de la parcela, el día (2026-05-20) y lo leído: yellow_pct, yield_kg, weeds_pct, soil_moisture_pct, stand, o en lost el motivo por el que se perdió la parcela.
scores-unnamed-trial = la línea no nombra ningún ensayo.
scores-no-trial = en este libro no hay ningún ensayo { $name }.
scores-trials-are = El libro tiene { $names }.
scores-no-layer = { $value } no son hojas que se puntúen.
scores-layers-are = Escriba { $names }.
scores-no-yes = { $value } no es ni yes ni no.
scores-again-is = Escriba yes en again donde la parcela se puntuó por segunda vez a propósito; si no, déjelo vacío.
scores-name-person = Nombre antes a la persona en el libro, o deje vacío el evaluador.
scores-below-zero = { $name } es { $value }, por debajo de cero.
