# Advertencias. Cada una dice el peligro, la cifra si la hay, y qué hacer. El organismo y el año van junto al texto.

severity-refuse = Rechazado
severity-warn = Advertencia
severity-note = Nota
standing-published = publicado
standing-second-hand = según lo citan otros
standing-recomputed = calculado de cifras publicadas
standing-fitted = ajustado
standing-from-memory = de memoria, sin confirmar
standing-common-practice = práctica común, sin fuente
standing-assumption = supuesto

## Al recibir
caution-treated-wood = La madera tratada lleva arsénico, cromo, cobre o creosota. Nunca se usa de acolchado, ni se composta, ni se quema. Devuélvala, o pregunte a la autoridad local adónde va.
caution-painted-wood = La madera pintada, barnizada o teñida puede llevar plomo y biocidas. El nivel de alerta de plomo en la tierra es { $lead }; una sola carga puede pasarlo. Devuélvala, o pregunte a la autoridad local adónde va.
caution-board-dust = El polvo de contrachapado, MDF, aglomerado y OSB lleva resinas. No se ha hallado autoridad que lo admita en tierra de alimentos. Devuélvalo, o pregunte a la autoridad local adónde va.
caution-demolition-wood = La madera de obra y derribo no se puede separar a ojo: hay entre ella piezas tratadas, pintadas y encoladas. Devuélvala, o pregunte a la autoridad local adónde va.
caution-weedkillers-known = El heno, la paja o la hierba tratados con aminopiralida, clopiralida o picloram dañan judías, guisantes, patatas y tomates, aun después de animales y compost. Devuélvalo, o déjelo para un pasto que nunca se labra.
caution-treatment-unknown = Nadie sabe si lleva madera tratada, pintada o encolada. Pregunte de dónde viene, revise una carretilla, y manténgala fuera de la tierra que da alimentos hasta saberlo.
caution-black-walnut = El nogal negro tiene juglona, que daña tomates, patatas, pimientos, manzanos y otros. Déjelo amontonado { $months } por lo menos, { $year } si son raíces o madera fresca, y pruébelo antes con un plantón de tomate.
caution-walnut-horses = Las virutas con nogal negro fresco dejan cojos a los caballos. No las use en cuadras, y téngalas lejos de caballos { $months } y más.
caution-poisonous-to-stock = Las astillas de tejo, adelfa, laurel cerezo o robinia envenenan a los animales. Póngalas solo donde ninguno llegue, y pregunte al veterinario si alguno ha comido.
caution-floated-logs-salt = Los troncos que flotaron en el mar llevan sal. Lávelos con lluvia o agua y analícelos, o rechácelos.
caution-diseased-wood = La madera de árboles enfermos puede llevar la enfermedad. Téngala lejos de árboles de la misma clase, y pregunte a un técnico autorizado de cuáles.
caution-quarantine-wood = La corteza y las astillas no pueden salir de las zonas en cuarentena vegetal. Pregunte a sanidad vegetal antes de recibirlas.
caution-waste-permit = Recibir residuos de madera de fuera puede pedir permiso o registro. Pregunte a la autoridad local.
caution-bedding-medicines = La cama de cuadra puede llevar desparasitantes y otras medicinas. Pregunte en la cuadra qué se dio, y compóstela primero.
caution-persistent-weedkillers = La aminopiralida, la clopiralida y el picloram pasan por los animales y por el compost y dañan judías, guisantes, patatas y tomates. Pregunte de dónde salió el heno o la paja, y siembre guisantes en una muestra de { $low } a { $weeks } antes de usarlo.
caution-pallet-fumigant = Los palés con el sello MB se fumigaron con bromuro de metilo, y nadie sabe qué se derramó sobre un palé. Tome solo los limpios con el sello HT.
caution-sour-mulch = Si huele a vinagre, a amoniaco o a ensilado, está agrio: se ha medido un pH de { $ph_low } a { $ph_high }, y quema las plantas. Extiéndalo fino al aire de { $hours_low } a { $hours_high } antes de usarlo.
caution-fresh-green-wood = La madera verde recién cortada puede frenar las raíces jóvenes. Déjela reposar, o no la ponga junto a plantones.
caution-unfinished-compost = Un compost con C:N de más de { $ratio } aún puede retener nitrógeno; por debajo de { $gives } da algo. Déjelo seguir, o abone como para madera fresca.
caution-cocoa-shell-dogs = La cáscara de cacao envenena a los perros. No la ponga donde un perro pueda comerla.
caution-coffee-grounds = Más de un { $percent } de posos de café crudos en una mezcla frena los plantones. Compóstelos, o ponga menos.

## Al manejarlo
caution-wood-dust = Respirar polvo de madera daña los pulmones y la nariz. Límites de trabajo en EE. UU.: OSHA { $osha_total } en total y { $osha_respirable } de polvo fino, NIOSH { $niosh }, ACGIH { $acgih }; otros países tienen los suyos. Humedézcalo, póngase de espaldas al viento y lleve mascarilla.
caution-wood-dust-cancer = El polvo de madera causa cáncer de nariz en personas (grupo 1). Que no haya polvo en el aire ni en sus pulmones.
caution-redcedar-dust = El polvo de tuya gigante (cedro rojo del Pacífico) provoca asma; el límite es { $acgih }. Quien reaccione, que no se acerque.
caution-dust-explosion = El polvo fino y seco en el aire explota. Ni llama ni chispa cerca, y nunca limpie un cobertizo soplando.
caution-legionella = El compost y el acolchado pueden llevar Legionella longbeachae. Humedézcalo, lleve guantes y mascarilla, lávese las manos y vaya al médico si tiene tos o fiebre.
caution-aspergillus-spores = Al voltear astillas viejas y húmedas salen esporas de moho. Póngase de espaldas al viento y lleve mascarilla; quien esté mal de los pulmones, que no se acerque.
caution-trailer-overload = El residuo mojado pesa, hasta { $density }. Pese un cubo antes de llenar un remolque, y no pase de lo que dice su placa.
caution-chipper = Una astilladora arrastra lo que engancha. Nada de ropa suelta ni guantes con puño, nunca a solas, y no meta nunca la mano.

## En montón
caution-heap-fire = Los montones se calientan y pueden arder. Mida por dentro: vigílelo por encima de { $watch }; por encima de { $act } llame a los bomberos y no abra el montón.
caution-heap-size = El código modelo de incendios admite montones de hasta { $height } de alto, { $width } de ancho y { $length } de largo. Pregunte a los bomberos de su zona.
caution-fire-amber = La pila está entre { $low } y { $high } por dentro, o está seca y caliente. Mídala cada día, moje las zonas secas y manténgala baja.
caution-fire-red = La pila pasa de { $watch }. Mídala varias veces al día, mójela desde fuera, aparte máquinas y otros montones y tenga a mano el número de los bomberos; por encima de { $act }, llámelos.
caution-fire-stop = La pila pasa de { $act } o echa humo. Aléjese, llame a los bomberos y no abra la pila.
caution-smouldering-pile = No abra nunca una pila que pueda arder por dentro sin los bomberos presentes: al abrirla le entra aire.
caution-static-cover = Una pila que no se voltea queda fría por fuera. Cúbrala con { $cover } de compost maduro o de astillas, para que se caliente toda.
caution-pile-run-off = El agua que sale de una pila lleva gérmenes y nitrógeno. Téngala lejos de pozos, zanjas y arroyos, y su suelo { $above } por encima del nivel más alto del agua subterránea.
caution-by-products-authority = El estiércol, los restos de comida y otras cosas de animales tienen reglas propias. Pregunte a la autoridad local qué regla vale y quién la comprueba, antes de esparcir o vender.
caution-heap-gases = Los montones sin aire dan monóxido de carbono, sulfuro de hidrógeno y metanol. No los tenga en locales cerrados, y ábralos de espaldas al viento.
caution-heap-collapse = Los montones y depósitos de serrín se derrumban y entierran a la gente. No socave un montón ni entre en un depósito o silo.
caution-children-on-heaps = Los montones se derrumban, arden por dentro y esconden huecos. Que no suban los niños.

## Al ponerlo
caution-decay-resistant-seedbed = El cedro, la secuoya y el ciprés pueden frenar los plantones, y se pudren despacio. No los ponga en semilleros.
caution-trunk-gap = El acolchado contra la corteza la pudre y esconde roedores. Déjelo a { $gap } de troncos y tallos.
caution-building-gap = El acolchado contra un edificio de madera lo humedece y lleva a él las termitas. Déjelo a { $gap }.
caution-sawdust-mat = El serrín fino se apelmaza y escurre el agua. Ponga de { $low } a { $high }, no más, y rastríllelo.
caution-mulch-depth = Un acolchado más grueso quita aire y agua a las raíces. Bajo árboles y arbustos bastan de { $low } a { $high }.
caution-voles-slugs = El acolchado da refugio a topillos y babosas. Déjelo a { $gap } de los tallos y mire debajo.
caution-frost = El acolchado mantiene fría la tierra en primavera y enfría las noches sobre él. Apártelo donde haya peligro de helada tardía.
caution-run-off = Lo que escurre del residuo y del abono daña pozos, acequias y arroyos. Téngalo bien lejos, y pregunte a la autoridad local a qué distancia.
caution-ask-local-rules = Las normas locales van antes que todo lo que se dice aquí. Pregunte a la autoridad local, y a un técnico autorizado donde haga falta.

## Abono y cosecha
caution-raw-manure-interval = El estiércol crudo pide { $touching } desde que se entierra hasta la cosecha si el cultivo toca la tierra, y { $clear } si no la toca, según la norma ecológica de EE. UU. En otros países pregunte a su certificadora o a la autoridad local.
caution-raw-manure-produce = El estiércol sin tratar no debe tocar el producto al darlo ni después, según la norma de EE. UU. para hortalizas. En otros países pregunte a la autoridad local.
caution-urine-harvest = Deje { $months } entre la última orina y la cosecha. Pregunte a la autoridad local si se permite la orina.
caution-urine-storage = Guarde la orina tapada { $household } si solo come el cultivo su propia casa, y { $others } a { $heat } o más si lo comen otros. Pregunte a la autoridad local si se permite la orina.
caution-urine-food-sold = Esta finca vende o certifica lo que cultiva: nada de orina hasta confirmar las normas locales. Pregunte a la autoridad local y a la certificadora.
caution-urine-saline = La orina lleva sal. No la dé en terreno salino.
caution-not-organic = Este abono no se admite en producción ecológica certificada según la norma de EE. UU. Pregunte a su certificadora.
caution-dose-limit = No se aconsejan más de { $limit } de una vez; para serrín se han publicado { $published }. Dé el resto más tarde, o ponga menos madera.
caution-nitrate-water-us = El nitrato lavado llega a los pozos. El límite de EE. UU. en agua de beber es { $limit } como nitrógeno. No abone más de lo previsto, y tenga la tierra cubierta.
caution-nitrate-water-eu = El nitrato lavado llega a los pozos. El límite de la UE en agua de beber es { $limit } como nitrato. No abone más de lo previsto, y tenga la tierra cubierta.
caution-manure-limit-eu = En las zonas vulnerables de la UE, el estiércol puede traer como mucho { $limit } al año, contados en toda la finca. Pregunte a la autoridad local.
caution-ammonia-urea = La urea en superficie pierde amoniaco al aire. Entiérrela, cúbrala, o cuente con { $rain } de lluvia o riego poco después.
caution-ammonia-manure = El estiércol en superficie pierde amoniaco al aire. Entiérrelo o cúbralo antes de { $days }.
caution-seed-burn = La urea y el amoniaco cerca de la semilla la queman. Déjelos a un palmo, y espere a que llueva.
caution-acidifying = Este abono acidifica la tierra con los años. Mida el pH de vez en cuando y encale según la recomendación local.
caution-animal-meal-stock = Las harinas de origen animal atraen a los perros y el ganado no debe comerlas. Entiérrelas, no deje entrar animales y pregunte a la autoridad local.
source-undated = { $body }, sin año
