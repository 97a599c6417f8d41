# Recipes of heaps and heat logs.

## Recipe
mix-answer = This makes { $mass } at { $moisture } moisture, with a C:N of { $ratio }.
mix-answer-no-nitrogen = This makes { $mass } at { $moisture } moisture. It holds no nitrogen, so it will hardly heat.
mix-water = water
mix-water-found = Water to add: { $amount }, for { $goal } moisture.
mix-water-add = Add { $amount } of water for { $goal } moisture.
mix-water-much = It holds { $amount } too much water for { $goal } moisture: add something dry, or let it drain.
mix-nitrogen-add = Add { $amount } for a C:N of { $goal }.
mix-nitrogen-much = It holds { $amount } more than a C:N of { $goal } takes: add something rich in carbon.
mix-air = About { $space } of the heap is air.
mix-air-unknown = How much of it is air is not known: weigh a bucket of each ingredient and give its bulk density.
mix-ingredient = Ingredient
mix-amount = Amount
mix-volume = Volume, loose
mix-moisture = Moisture
mix-ratio = C:N
mix-found-here = Found here.
mix-what = What
mix-here = Here
mix-window = Best between
mix-verdict = Verdict
mix-source = Source
mix-from = { $low } and more
mix-to = { $high } and less
mix-carbon-nitrogen = C:N
mix-free-air-space = Air in the heap
mix-density = Bulk density
mix-acidity = pH
mix-particle = Size of pieces, cm
mix-oxygen = Oxygen, %
mix-lies-preferred = good
mix-lies-acceptable = will do
mix-lies-under = too low
mix-lies-over = too high
mix-no-ingredient = there is no ingredient in the file
mix-ingredient-form = Write [[ingredient]] with material = "hardwood sawdust" and wet_kg = 200 under it.
mix-more-than-at-hand = more { $name } is put in than there is
mix-weigh-a-bucket = Give bulk_density_kg_m3 (weigh a bucket: kilograms by litres, times 1000), or wet_kg.
mix-container-unknown = nobody said how much one of the { $name } holds
mix-container-size = Add { $line } under [containers].
mix-moisture-wet-basis = a moisture of { $value } % of wet mass leaves nothing dry
mix-moisture-name-basis = Water by wet mass is below 100 %. If it was reckoned by oven-dry mass, write moisture_oven_dry_pct = { $value }.
mix-more-than-all = { $name } would be more than all carbon and nitrogen
mix-check-figures = Check carbon_pct, nitrogen_pct and carbon_nitrogen: they are parts of dry mass.
mix-unknown-make-up = neither the carbon nor the nitrogen of { $name } is known
mix-say-make-up = Give carbon_nitrogen, or nitrogen_pct with carbon_pct; nitrogen_pct = 0 is a figure, too.
mix-nothing-known = no amount is known, so there is nothing to fit the others to
mix-say-amount = Give the amount of one ingredient, or total_kg under [goal].
mix-goal-impossible = no heap can have such a goal
mix-goal-form = Moisture lies between 0 and 100 %, C:N above zero.
mix-all-wet = everything here is wetter than { $goal }
mix-add-dry = Add something drier: dry shavings, chips or straw. Or let it drain, and measure again.
mix-all-dry = everything here is drier than { $goal }
mix-add-water = Add water as an ingredient.
mix-all-carbon = everything here has more carbon than a C:N of { $goal }
mix-add-nitrogen = Add something richer in nitrogen: manure, fresh grass, a meal or a nitrogen fertiliser.
mix-all-nitrogen = everything here has more nitrogen than a C:N of { $goal } takes
mix-add-carbon = Add something richer in carbon: sawdust, chips, dry leaves or straw.
mix-not-together = at a C:N of { $ratio } these lie between { $driest } and { $wettest } moisture, and { $goal } lies outside
mix-together-dry = Add something dry whose C:N is near the goal, or ask for more moisture.
mix-together-wet = Add water, or ask for less moisture.
mix-short = there is too little { $name }: it takes { $needed }, and { $at_hand } is there
mix-get-more = Get { $more } more, or write adjust = true under [goal], so that the other amounts may shrink.
mix-kept = the amounts that are given do not allow it
mix-let-change = Write adjust = true under [goal], so that they may change, or leave one amount open.

## Heat
heat-met = The figures of { $rule } are met.
heat-figures-reached = The figures of { $rule } are reached. They are from memory here: read the rule itself before you call it met.
heat-not-reached = Not there yet by { $rule }.
heat-unknown = By { $rule } it cannot be said: what was not read counts for nothing.
heat-too-hot = Hot for long enough, but hotter than { $rule } allows.
heat-does-not-apply = { $rule } is for heaps with animal matter. This one has none, so it does not apply.
heat-counted-days = Zone { $zone } decides: { $days } of { $wanted } at { $heat } or more.
heat-counted-hours = Zone { $zone } decides: { $held } of { $wanted } at { $heat } or more without a break.
heat-counted-turnings = { $count ->
    [one] One turning in that time, of { $wanted }.
   *[other] { $n } turnings in that time, of { $wanted }.
}
heat-still-days = Still needed: { $days }.
heat-still-turnings = { $count ->
    [one] Still needed: one turning.
   *[other] Still needed: { $n } turnings.
}
heat-still-zones = Still to be read: { $zones }.
heat-missing = Not read on { $dates }: such a day counts for nothing.
heat-over = Over the upper limit on { $dates }.
heat-more-days = { $count ->
    [one] one more day
   *[other] { $n } more days
}
heat-unsaid = The rule does not say whether the days must follow each other; the longest run is { $days }. Ask.
heat-renamed = { $from } ends where { $to } begins, on { $date }. If that is one probe, give it one name.
heat-set-aside = Readings outside the depths of the rule ({ $low } to { $high }) were left out.
heat-out-of-order = The readings were not in order of time; they were put in order.
heat-perhaps-celsius = No reading is hotter than a warm day in degrees Fahrenheit. If these are degrees Celsius, name the column temperature_c.
heat-fire-now = Fire level on { $date }: { $level }.
heat-fire-highest = It was { $level } on { $date }.
heat-turn-hot = Turn it: it is too hot for its own organisms.
heat-turn-cooled = Turn it: it has cooled.
heat-turn-airless = Turn it: it is short of air.
heat-besides = The rule also asks for { $list }.
heat-decides = { $work }: { $body }, { $standing }. Only the local authority or the certifier decides.
heat-zone = Zone
heat-days = Days
heat-turnings = Turnings
heat-first = First day
heat-last = Last day
heat-zone-whole = whole pile
heat-zone-edge = edge
heat-zone-core = core
heat-zone-base = base
heat-besides-pathogen-test = a test for germs
heat-besides-aerobic = air all through
heat-besides-start-ratio = a C:N of 25 to 40 at the start
heat-besides-all-heated = that all of it gets that hot
heat-besides-dry-12 = drying to 12 % moisture
heat-besides-curing = curing after it
heat-besides-particle-12 = pieces of at most 12 mm
heat-besides-particle-200 = pieces of at most 200 mm
heat-besides-by-products = the approval that animal by-products need
heat-besides-spore-formers = control of spore-forming germs
heat-besides-moist-50 = at least 50 % moisture
heat-besides-producer-validates = a process that the producer sets and proves
heat-besides-holds-warm = staying above 43 °C (110 °F) for weeks after it
fire-level-green = green
fire-level-amber = amber
fire-level-red = red
fire-level-stop = stop and call for help

## Files of readings
heat-form = Write a first line such as date,time,zone,depth_cm,temperature_c,turned.
heat-no-reading = there is no reading in the table
heat-which-scale = { $name } does not say which degrees
heat-name-scale = Name the column temperature_c or temperature_f.
heat-two-scales = temperatures stand in two columns
heat-unknown-column = there is no column { $name }
heat-no-date = there is no column date
heat-no-temperature = there is no column of temperatures
heat-no-day = { $value } is no day
heat-day-form = Write the year first: 2026-05-20.
heat-no-time = { $value } is no time of day
heat-time-form = Write hours and minutes: 07:30.
heat-twice = zone { $zone } was read twice at that time; first on line { $first }
heat-keep-one = Keep one of the two, or write the time of the second.
heat-above-boiling = { $value } °C is hotter than boiling water
heat-perhaps-fahrenheit = Are these degrees Fahrenheit? Then name the column temperature_f. If the figure is right, keep away and call the fire service.
heat-above-boiling-f = { $value } °F is hotter than boiling water
heat-below-all = { $value } degrees is colder than any heap
heat-look-again = Look at the figure again. If a heap is really that hot, keep away and call the fire service.
heat-moisture-basis = Write water by wet mass, below 100 %. From oven-dry mass: divide by 100 plus itself, times 100.
heat-yes-or-no = { $name } is { $value }
heat-yes-form = Write yes, or leave it empty.
heat-not-a-number = { $name } is { $value }, which is no such number
heat-number-form = Write a number alone, with a point: 57.5.
heat-unknown-rule = there is no heat rule { $name }
heat-known-rules = Known rules: { $names }.

## Piles of a book
pile-built = Built { $date }
pile-ratio = C:N { $ratio } at the start
pile-moisture = { $moisture } moisture at the start
pile-became = It became { $batch } on { $date }.
pile-age = It has stood for { $days }.
pile-heat = Heat of { $pile }
pile-heat-about = Readings of { $pile } by zone over { $days }, with the line of its rule and its turnings.
pile-celsius = °C
pile-fahrenheit = °F
pile-turned = turned
pile-counts-from = counts from { $heat }
pile-too-hot-above = too hot above { $heat }

## Whether compost is ready
maturity-too-few-tests = Too few tests to call it ready: it takes its C:N and { $fewest } tests of decay that agree.
maturity-immature = Not ready: at least one test says so. Let it go on, keep it moist, and test again.
maturity-mature = Ready, by all tests together.
maturity-very-mature = Well ready, by all tests together.
maturity-class-immature = not ready
maturity-class-mature = ready
maturity-class-very-mature = well ready
maturity-test-carbon-nitrogen = C:N { $figure }: { $class } ({ $source })
maturity-test-ammonium-nitrate = Ammonium to nitrate { $figure }: { $class } ({ $source })
maturity-test-dioxide-mg-g-day = Carbon dioxide { $figure } mg C a gram of organic matter and day: { $class } ({ $source })
maturity-test-emergence-pct = Seedlings that came up, { $figure } % of the control: { $class } ({ $source })
maturity-test-self-heating-c = Rise in an insulated flask { $figure } °C: { $class } ({ $source })
maturity-test-oxygen-mg-kg-h = Oxygen { $figure } mg a kg of volatile solids and hour: { $class } ({ $source })
maturity-test-germination-index-pct = Germination index { $figure } %: { $class } ({ $source })
maturity-seedlings-hurt = Seedlings grown in it were hurt, as by weedkillers that outlast animals and compost. Do not put it where beans, peas, potatoes or tomatoes grow; ask where the hay, straw or manure came from, and ask the local advisory service.
maturity-seedlings-well = Seedlings grown in it grew as well as in the clean control.
maturity-cured = It has cured for { $days }, under { $under }; { $wanted } is the least ({ $source }).
maturity-cures = It has cured for { $days }, under { $under }; it wants { $wanted } at least ({ $source }).
maturity-no-cure = It does not cure yet: that begins when every zone stays under { $under }, and takes { $wanted } at least ({ $source }).
pile-ratio-now = Its C:N is likely to be { $ratio } by now ({ $standing }); a test says more.
pile-ash-lost = By the ash of what went in and of the batch, { $lost } of the dry mass went off.
pile-ash-at-odds = The batch has less ash than what went in. Ash stays, so one of the two tests is off.
pile-ratio-at-end = Its C:N was likely to be { $ratio } when it was taken down ({ $standing }); a test says more.
maturity-untested = Nobody tested whether it is ready: its C:N and two tests of decay together say so, and peas grown in it beside clean soil show weedkillers.
