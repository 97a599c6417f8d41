# Por qué no se hizo algo.

act-unknown-material = la tabla no tiene el material { $name }.
act-refused = { $name } no se pone en ningún lugar donde crezca algo.
act-not-residue = { $name } no es un residuo que se descomponga.
act-not-residue-remedy = Póngalo bajo [[feed]].
act-nothing-there = la cantidad de { $name } no hace ninguna capa en este lugar.
act-nothing-there-remedy = Dé una cantidad mayor que cero y el área del lugar.
act-unknown-feed = la tabla no tiene el abono { $name }.
act-wrong-measure = { $name } está dado en la medida equivocada.
act-wrong-measure-remedy = Los líquidos van con volume_l, los sólidos con amount_kg, y ambos con nitrogen_kg_ha.
act-no-load = no se describe ninguna carga.
act-no-load-remedy = Añada un [[put_down]] con fecha, material y cantidad.
act-nothing-happens = en este lugar no ocurre nada.
act-missing = falta { $key }.
act-missing-remedy = Aquí hace falta: { $why }
act-soil = el suelo no puede ser así: { $why }
act-model = el modelo de nitrógeno no puede calcular esto: { $why }
act-near = ¿Quiso decir uno de estos: { $names }?
