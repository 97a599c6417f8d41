# The answer: one instruction, one amount, one thing to give, one date to look, one thing not to do; then its cost.

## Do. The amount follows after a comma.
do-worked-in = Work it in, { $depth } deep
do-on-top = Put it on top
do-over-compost = Spread { $compost } of finished compost and put it on top
do-over-urine = Water the soil with { $urine } of urine, well diluted, and put it on top
do-composted-first = Compost it first with { $manure } of cattle manure for { $months }, then work it in
do-composted-first-alone = Compost it first for { $months }, then work it in
do-path = Put it on the path
do-ring = Lay it in a ring under each tree
do-nothing = Keep it off this place

## How much
amount-layer = { $depth }, { $containers }
amount-containers = { $containers }
amount-less-than-load = { $amount }; leave the rest of the load, this is the most that this place takes
answer-do-amount = { $do }, { $amount }.
answer-do-only = { $do }.
keep-off-stems = Keep it { $gap } off stems.
keep-off-trunks = Keep it { $gap } off trunks.

## Give
give-nothing = Give nothing now.
give-nothing-catching = Give nothing: this is catching nitrate, about { $saved } that would have been washed out.
give-nothing-legume = Give nothing now: this crop draws part of its nitrogen from the air.
give-crop-anyway = Give nothing because of the wood; for the crop anyway { $crop }.
give-wood = Give { $amount } of { $source } because of the wood ({ $wood }).
give-crop-and-wood = Give { $amount } of { $source } because of the wood ({ $wood }), besides { $crop } for the crop anyway.
give-most = Give { $amount } of { $source } ({ $wood }); that is the most at one time here, and the wood would take more.
give-no-source = The wood takes { $wood } that nothing at hand can give here; the cost below stands.

## Look
look-leaves = Look at the old leaves on { $date }.
look-layer = Measure the depth of the layer on { $date }.
look-soil = Test the soil for nitrate on { $date }.

## Not
not-dig-in = Do not dig it in this year.
not-dig-in-costs = Do not dig it in this year: that would cost the crop another { $cost }.
not-same-again = Do not put as much down again this year.
not-same-again-costs = Do not put as much down again this year: that would cost the crop another { $cost }.
not-against-stems = Do not pile it against stems or trunks.
not-spread-more = Do not spread it thicker than this.

## Cost
answer-cost = — { $cost } { $least_known }
cost-loses = Costs the crop about { $middle } ({ $low } to { $high }).
cost-gains = Gives the crop about { $middle } more ({ $low } to { $high }).
cost-even = Makes no clear difference to the crop: between { $loss } less and { $gain } more.
cost-loses-or-gains = Costs the crop about { $middle } (from { $gain } more to { $loss } less).
cost-gains-or-loses = Gives the crop about { $middle } more (from { $loss } less to { $gain } more).
cost-none = Costs the crop nothing that can be told.
cost-loses-tree = Costs each tree about { $middle } of nitrogen ({ $low } to { $high }).
cost-gains-tree = Gives each tree about { $middle } more nitrogen ({ $low } to { $high }).
cost-loses-litre = Costs each litre of the container about { $middle } of nitrogen ({ $low } to { $high }).
cost-gains-litre = Gives each litre of the container about { $middle } more nitrogen ({ $low } to { $high }).
cost-loses-gallon = Costs each gallon of the container about { $middle } of nitrogen ({ $low } to { $high }).
cost-gains-gallon = Gives each gallon of the container about { $middle } more nitrogen ({ $low } to { $high }).
cost-nothing-grows = Nothing grows here in this time; it holds about { $tied } after { $days }.
hungry-both = The crop is hungry by { $date }; on the bare bed it would be by { $bare }.
hungry-only = The crop is hungry by { $date }; on the bare bed it would not be.
hungry-bare-only = The crop is not hungry in this time; on the bare bed it would be by { $bare }.
hungry-same = The crop is hungry by { $date }, as on the bare bed.
hungry-never = The crop does not go hungry in this time.
hungry-chance = In { $share } of the runs the crop goes hungry.
tied-up = It holds { $range } after { $days }.
release-by = It starts to give nitrogen back about { $date }.
release-not-within = Giving nitrogen back: { $within }.

## Least known, and the one question that would narrow it most
least-known = Least known: { $what }.
least-known-wood = what wood it is
least-known-decay = how fast this wood decays
least-known-microbes = how much nitrogen the decay takes
least-known-carbon-nitrogen = the carbon to nitrogen of the load
least-known-particle = how fine it is
least-known-amount = how much there is of it
least-known-moisture = how wet it is
least-known-soil-nitrogen = how much nitrogen the soil holds now
least-known-soil-supply = what the soil gives in a year
least-known-soil-water = how much water the soil holds
least-known-upward-flux = how much nitrogen moves up from the soil into the layer
least-known-rain = how much rain comes
least-known-temperature = how warm the season is
least-known-crop-need = how much the crop needs
least-known-feed-loss = how much of the feed is lost
least-known-other = several small things together
narrow-wood = Ask where it comes from: hardwood or softwood, and which tree.
narrow-decay = Look again in a month: how much of it is left, and is it grey inside?
narrow-microbes = A four-day draw test of a handful would tell.
narrow-carbon-nitrogen = A laboratory's total carbon and nitrogen of one sample would tell.
narrow-particle = Rub a handful: flour, coffee, flakes, matchsticks or bigger?
narrow-amount = Count the barrows, or weigh one.
narrow-moisture = Squeeze a handful: does it feel dusty, cool and damp, or does it drip?
narrow-soil-nitrogen = A soil test for nitrate before planting would tell.
narrow-soil-supply = Soil colour, organic matter, and whether the last crop was fed.
narrow-soil-water = Roll damp soil: does it crumble, make a ball, or make a ribbon?
narrow-upward-flux = A look at the old leaves at the date above would tell; no test of the soil can.
narrow-rain = Rain and watering noted through the season narrow it.
narrow-temperature = Nobody knows the season yet; it narrows as it goes.
narrow-crop-need = Say what is grown, or whether its appetite is light, middling or hungry.
narrow-feed-loss = Cover the feed or water it in, and note the day.
narrow-other = No one question would narrow it much.
narrow-draw-test = A four-day draw test of a handful would tell.
narrow-soil-test-later = A soil test for nitrate four weeks on would tell.
narrow-leaf = The old leaves four weeks on, beside a well-fed plot, would tell.
narrow-by = That would narrow the range by about { $share }.

## Around the answer
wait-composted = If you can wait { $months }: composted first with { $manure } of cattle manure, it gives the crop about { $more } more.
wait-composted-alone = If you can wait { $months }: composted first, it gives the crop about { $more } more.
most-place-takes = The most this place can take this way: { $amount }.
most-limited-by-nitrogen = More would need more than { $limit } at one time.
most-limited-by-depth = Deeper than { $depth } it keeps air and water from the soil.
assumption-decides-upward-flux = This order hangs on one assumption: how much nitrogen moves up from the soil into the layer. Nobody has measured it well. At its high end, on top costs the crop { $high }; at its low end, { $low }.
assumption-decides = This order hangs on one assumption: { $what }. Within its range another way would come first.
photo-sets-no-dose = A leaf photo narrows the range; it never sets a dose.
