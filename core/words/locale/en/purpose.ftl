# What a load is for: the ways that serve it, their price in nitrogen, work and money.

purpose-for-weeds = To keep weeds down
purpose-for-water = To keep water in the soil
purpose-for-soil = To bring organic matter
purpose-for-use-up = To use the load up
purpose-best = { $purpose }: { $way }, { $amount }.
purpose-best-part = { $purpose }: { $way }, { $amount }; that is the most this place takes so, { $part } of the load.
purpose-none = { $purpose }: no way of using this load serves that here.
purpose-depth = { $depth } deep, { $containers }

purpose-weeds-covers = { $depth } keeps weeds down: fewer came through { $cover } of chips and more than through { $thin } or none ({ $source }).
purpose-weeds-between = { $depth } may do: fewer weeds came through { $cover } of chips and more than through { $thin } or none ({ $source }); nobody tried what lies between. { $missing } more make { $cover }; as it is, the load makes that on { $area }.
purpose-weeds-too-thin = { $depth } is too thin: as many weeds come through { $thin } of chips as through none, fewer through { $cover } ({ $source }). { $missing } more make { $cover }; as it is, the load makes that on { $area }.
purpose-water-keeps = By { $date } { $kept } of water less has left soil and crop for the air ({ $low } to { $high }).
purpose-water-even = By { $date } it makes no difference to the water that leaves soil and crop for the air ({ $low } to { $high } less).
purpose-water-loses = It keeps no water here: by { $date } { $lost } more has left for the air, by what the layer catches or by a crop that grows better.
purpose-water-watering = { $less } less has to be watered ({ $low } to { $high }).
purpose-water-dry-days = A crop stands in dry soil on { $days } fewer.
purpose-soil = After a year { $left } of organic matter is left of it ({ $low } to { $high }), wood that is not soil yet counted in: { $points } points of per cent, were it all mixed in.
purpose-use-up-all = All of it goes so, over { $area }.
purpose-use-up-part = { $part } of it goes so, over { $area }.
purpose-price-hungry = With nothing given, { $share } of the runs go hungry; on the bare place { $bare }.
purpose-price-tied = It holds { $tied } after a year, where nothing grows.
purpose-work = Work: { $barrows }, about { $hours }.
purpose-money = In your money: { $money }.
purpose-compost = Finished compost that leaves as much organic matter: { $volume }, { $money } in your money with its spreading.
purpose-compost-unpriced = Not set against bought compost: no --compost-price was given.

purpose-ways = The ways that serve it
purpose-way = Way
purpose-used = Used
purpose-depth-head = Depth
purpose-weeds-head = Against weeds
purpose-water-head = Water kept until harvest
purpose-organic-head = Organic matter after a year
purpose-lost-head = Costs the crop, { $unit }
purpose-hungry-head = Hungry
purpose-work-head = Work
purpose-money-head = Money
purpose-cover-covers = covers
purpose-cover-between = may do
purpose-cover-too-thin = too thin
purpose-not-doable = not in time, or not allowed here
purpose-others = These do not serve it: { $ways }.
