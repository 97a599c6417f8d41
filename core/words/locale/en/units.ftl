# Quantities. $n is a number already written in the reader's way; $count is the same number, for its plural.

unit-kg = { $n } kg
unit-g = { $n } g
unit-mg = { $n } mg
unit-t = { $n } t
unit-lb = { $n } lb
unit-oz = { $n } oz
unit-us-ton = { $count ->
    [one] { $n } ton
   *[other] { $n } tons
}
unit-mm = { $n } mm
unit-cm = { $n } cm
unit-m = { $n } m
unit-in = { $n } in
unit-ft = { $n } ft
unit-m2 = { $n } m²
unit-ha = { $n } ha
unit-ft2 = { $n } ft²
unit-acre = { $count ->
    [one] { $n } acre
   *[other] { $n } acres
}
unit-l = { $n } L
unit-ml = { $n } mL
unit-m3 = { $n } m³
unit-ft3 = { $n } ft³
unit-yd3 = { $n } yd³
unit-us-gallon = { $n } gal
unit-us-fluid-ounce = { $n } fl oz
unit-kg-ha = { $n } kg/ha
unit-t-ha = { $n } t/ha
unit-g-m2 = { $n } g/m²
unit-lb-acre = { $n } lb/acre
unit-us-ton-acre = { $count ->
    [one] { $n } ton/acre
   *[other] { $n } tons/acre
}
unit-oz-100-ft2 = { $n } oz per 100 ft²
unit-lb-100-ft2 = { $n } lb per 100 ft²
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
unit-percent-under-one = less than 1 %

unit-minutes = { $count ->
    [one] { $n } minute
   *[other] { $n } minutes
}
unit-hours = { $count ->
    [one] { $n } hour
   *[other] { $n } hours
}
unit-days = { $count ->
    [one] { $n } day
   *[other] { $n } days
}
unit-weeks = { $count ->
    [one] { $n } week
   *[other] { $n } weeks
}
unit-months = { $count ->
    [one] { $n } month
   *[other] { $n } months
}
unit-years = { $count ->
    [one] { $n } year
   *[other] { $n } years
}
unit-fingers = { $count ->
    [one] { $n } finger-width
   *[other] { $n } finger-widths
}
unit-half-finger = half a finger-width
unit-fingers-and-half = { $n }½ finger-widths

## A range, and a middle figure with its range; the unit stands in the first part.
range = { $low } to { $high }
range-around = { $middle } ({ $low } to { $high })
unknown-number = –

## Containers
barrow = { $count ->
    [one] { $n } barrow
   *[other] { $n } barrows
}
barrow-half = half a barrow
barrow-and-half = { $n }½ barrows
barrow-under-half = less than half a barrow
bucket = { $count ->
    [one] { $n } bucket
   *[other] { $n } buckets
}
bucket-half = half a bucket
bucket-and-half = { $n }½ buckets
bucket-under-half = less than half a bucket
trailer = { $count ->
    [one] { $n } trailer
   *[other] { $n } trailers
}
trailer-half = half a trailer
trailer-and-half = { $n }½ trailers
trailer-under-half = less than half a trailer

## Dates
date = { $day } { $month }
date-with-year = { $day } { $month } { $year }
date-range = { $first } to { $last }
date-month = { $month } { $year }
month-1 = January
month-2 = February
month-3 = March
month-4 = April
month-5 = May
month-6 = June
month-7 = July
month-8 = August
month-9 = September
month-10 = October
month-11 = November
month-12 = December
month-short-1 = Jan
month-short-2 = Feb
month-short-3 = Mar
month-short-4 = Apr
month-short-5 = May
month-short-6 = Jun
month-short-7 = Jul
month-short-8 = Aug
month-short-9 = Sep
month-short-10 = Oct
month-short-11 = Nov
month-short-12 = Dec
not-within = not within { $days } ({ $share } of the runs did)
not-within-any = not within { $days }

## Lists and small words
list-and = { $first } and { $last }
list-or = { $first } or { $last }
list-more = { $first }, { $last }
yes = yes
no = no
unit-trees = { $count ->
    [one] { $n } tree
   *[other] { $n } trees
}
