# Cantidades. $n es un número ya escrito a la manera del lector; $count es el mismo, para el plural.

unit-kg = { $n } kg
unit-g = { $n } g
unit-mg = { $n } mg
unit-t = { $n } t
unit-lb = { $n } lb
unit-oz = { $n } oz
unit-us-ton = { $count ->
    [one] { $n } tonelada corta
   *[other] { $n } toneladas cortas
}
unit-mm = { $n } mm
unit-cm = { $n } cm
unit-m = { $n } m
unit-in = { $n } pulg.
unit-ft = { $n } pies
unit-m2 = { $n } m²
unit-ha = { $n } ha
unit-ft2 = { $n } pies²
unit-acre = { $count ->
    [one] { $n } acre
   *[other] { $n } acres
}
unit-l = { $n } L
unit-ml = { $n } mL
unit-m3 = { $n } m³
unit-ft3 = { $n } pies³
unit-yd3 = { $n } yd³
unit-us-gallon = { $n } gal
unit-us-fluid-ounce = { $n } oz líq.
unit-kg-ha = { $n } kg/ha
unit-t-ha = { $n } t/ha
unit-g-m2 = { $n } g/m²
unit-lb-acre = { $n } lb/acre
unit-us-ton-acre = { $count ->
    [one] { $n } tonelada corta/acre
   *[other] { $n } toneladas cortas/acre
}
unit-oz-100-ft2 = { $n } oz por 100 pies²
unit-lb-100-ft2 = { $n } lb por 100 pies²
unit-kg-n-ha = { $n } kg N/ha
unit-lb-n-acre = { $n } lb N/acre
unit-kg-n = { $n } kg N
unit-lb-n = { $n } lb N
unit-g-n = { $n } g N
unit-oz-n = { $n } oz N
unit-mg-n-l = { $n } mg N/L
unit-kg-m3 = { $n } kg/m³
unit-lb-yd3 = { $n } lb/yd³
unit-mg-l = { $n } mg/L
unit-mg-m3 = { $n } mg/m³
unit-mg-kg = { $n } mg/kg
unit-c = { $n } °C
unit-f = { $n } °F
unit-percent = { $n } %
unit-percent-under-one = menos del 1 %

unit-minutes = { $count ->
    [one] { $n } minuto
   *[other] { $n } minutos
}
unit-hours = { $count ->
    [one] { $n } hora
   *[other] { $n } horas
}
unit-days = { $count ->
    [one] { $n } día
   *[other] { $n } días
}
unit-weeks = { $count ->
    [one] { $n } semana
   *[other] { $n } semanas
}
unit-months = { $count ->
    [one] { $n } mes
   *[other] { $n } meses
}
unit-years = { $count ->
    [one] { $n } año
   *[other] { $n } años
}
unit-fingers = { $count ->
    [one] { $n } dedo
   *[other] { $n } dedos
}
unit-half-finger = medio dedo
unit-fingers-and-half = { $count ->
    [one] { $n } dedo y medio
   *[other] { $n } dedos y medio
}

## Un intervalo, y una cifra central con su intervalo; la unidad va en la primera parte.
range = de { $low } a { $high }
range-around = { $middle } (de { $low } a { $high })
unknown-number = –

## Recipientes
barrow = { $count ->
    [one] { $n } carretilla
   *[other] { $n } carretillas
}
barrow-half = media carretilla
barrow-and-half = { $count ->
    [one] { $n } carretilla y media
   *[other] { $n } carretillas y media
}
barrow-under-half = menos de media carretilla
bucket = { $count ->
    [one] { $n } cubo
   *[other] { $n } cubos
}
bucket-half = medio cubo
bucket-and-half = { $count ->
    [one] { $n } cubo y medio
   *[other] { $n } cubos y medio
}
bucket-under-half = menos de medio cubo
trailer = { $count ->
    [one] { $n } remolque
   *[other] { $n } remolques
}
trailer-half = medio remolque
trailer-and-half = { $count ->
    [one] { $n } remolque y medio
   *[other] { $n } remolques y medio
}
trailer-under-half = menos de medio remolque

## Fechas
date = { $day } de { $month }
date-with-year = { $day } de { $month } de { $year }
date-range = del { $first } al { $last }
date-month = { $month } de { $year }
month-1 = enero
month-2 = febrero
month-3 = marzo
month-4 = abril
month-5 = mayo
month-6 = junio
month-7 = julio
month-8 = agosto
month-9 = septiembre
month-10 = octubre
month-11 = noviembre
month-12 = diciembre
month-short-1 = ene
month-short-2 = feb
month-short-3 = mar
month-short-4 = abr
month-short-5 = may
month-short-6 = jun
month-short-7 = jul
month-short-8 = ago
month-short-9 = sep
month-short-10 = oct
month-short-11 = nov
month-short-12 = dic
not-within = no en { $days } ({ $share } de las simulaciones sí)
not-within-any = no en { $days }

## Listas y palabras menudas
list-and = { $first } y { $last }
list-or = { $first } o { $last }
list-more = { $first }, { $last }
yes = sí
no = no
unit-trees = { $count ->
    [one] { $n } árbol
   *[other] { $n } árboles
}
