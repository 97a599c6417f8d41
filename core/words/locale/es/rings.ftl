# El suelo bajo los anillos de los árboles.

rings-answer = Acolche { $net } bajo { $trees }.
rings-answer-bare = Acolche { $net } bajo { $trees }; { $bare } quedan sin cubrir junto a los troncos.
rings-nothing = No queda nada que acolchar bajo { $trees }: los huecos de los troncos lo ocupan todo.
rings-overlap = Contado árbol por árbol serían { $sum }, { $share } más: los anillos se solapan.
rings-trees = { $count ->
    [one] { $trees } árbol
   *[other] { $trees } árboles
}
rings-title = Suelo
rings-union = Bajo las copas
rings-bare = Sin cubrir junto a los troncos
rings-net = Por acolchar
rings-sum = Árbol por árbol

## What is wrong with a file of rings
rings-form = La primera línea nombra las columnas: x_m,y_m,radius_m y, si se sabe, gap_m. Después, una línea por árbol, en metros y con punto decimal.
rings-heading = la primera línea es { $text }.
rings-separator = las columnas de este archivo no están separadas por comas.
rings-unknown-column = un archivo así no tiene la columna { $name }.
rings-missing-column = falta la columna { $name }.
rings-column-twice = la columna { $name } está dos veces.
rings-none = no hay ningún árbol después de la primera línea.
rings-empty-cell = { $name } está vacío.
rings-no-gap = Un árbol sin hueco lleva 0, o nada, en gap_m.
rings-too-far = { $name } es { $value }; tiene que ser un lugar a menos de 100 000 km del origen.
rings-own-origin = Cuente x_m e y_m desde una esquina de la plantación.
rings-no-radius = { $name } es { $value }; tiene que ser más que 0 y como mucho 1 000 000 m.
rings-no-gap-size = { $name } es { $value }; tiene que estar entre 0 y 1 000 000 m.
rings-more = Puede haber más como este más abajo.
