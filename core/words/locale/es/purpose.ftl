# Para qué es una carga: las maneras que sirven, y lo que cuestan en nitrógeno, trabajo y dinero.

purpose-for-weeds = Para que salgan menos hierbas
purpose-for-water = Para guardar agua en la tierra
purpose-for-soil = Para traer materia orgánica
purpose-for-use-up = Para gastar la carga
purpose-best = { $purpose }: { $way }, { $amount }.
purpose-best-part = { $purpose }: { $way }, { $amount }; es lo más que admite así este sitio, el { $part } de la carga.
purpose-none = { $purpose }: ninguna manera de usar esta carga sirve aquí.
purpose-depth = { $depth } de grosor, { $containers }

purpose-weeds-covers = { $depth } frenan las hierbas: por { $cover } de astillas o más salieron menos que por { $thin } o ninguna ({ $source }).
purpose-weeds-between = { $depth } quizá basten: por { $cover } de astillas o más salieron menos hierbas que por { $thin } o ninguna ({ $source }); nadie probó lo que hay en medio. Con { $missing } más se llega a { $cover }; tal cual, la carga da eso en { $area }.
purpose-weeds-too-thin = { $depth } es poco: por { $thin } de astillas salen tantas hierbas como por ninguna, por { $cover } menos ({ $source }). Con { $missing } más se llega a { $cover }; tal cual, la carga da eso en { $area }.
purpose-water-keeps = Hasta el { $date } se van al aire { $kept } menos de agua de la tierra y del cultivo (de { $low } a { $high }).
purpose-water-even = Hasta el { $date } no cambia el agua que se va al aire de la tierra y del cultivo (de { $low } a { $high } menos).
purpose-water-loses = Aquí no guarda agua: hasta el { $date } se van al aire { $lost } más, por lo que retiene la capa o porque el cultivo crece mejor.
purpose-water-watering = Hay que regar { $less } menos (de { $low } a { $high }).
purpose-water-dry-days = Un cultivo está en tierra seca { $days } menos.
purpose-soil = Después de un año la materia orgánica que queda es de { $left } (de { $low } a { $high }), contando la madera que aún no es tierra: { $points } puntos por ciento, si se mezclara toda.
purpose-use-up-all = Se gasta toda así, en { $area }.
purpose-use-up-part = Se gasta así el { $part }, en { $area }.
purpose-price-hungry = Sin dar nada, pasa hambre el { $share } de las simulaciones; en el sitio desnudo, el { $bare }.
purpose-price-tied = Después de un año retiene { $tied }, donde no crece nada.
purpose-work = Trabajo: { $barrows }, cerca de { $hours }.
purpose-money = En su dinero: { $money }.
purpose-compost = Compost hecho que deja la misma materia orgánica: { $volume }, { $money } en su dinero con el reparto.
purpose-compost-unpriced = No se compara con compost comprado: no se dio --compost-price.

purpose-ways = Las maneras que sirven
purpose-way = Manera
purpose-used = Se usa
purpose-depth-head = Grosor
purpose-weeds-head = Contra las hierbas
purpose-water-head = Agua guardada hasta la cosecha
purpose-organic-head = Materia orgánica tras un año
purpose-lost-head = Cuesta al cultivo, { $unit }
purpose-hungry-head = Con hambre
purpose-work-head = Trabajo
purpose-money-head = Dinero
purpose-cover-covers = frena
purpose-cover-between = quizá
purpose-cover-too-thin = es poco
purpose-not-doable = no da tiempo, o aquí no se admite
purpose-others = Estas no sirven para eso: { $ways }.
