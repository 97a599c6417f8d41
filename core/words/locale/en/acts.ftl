# Why an act was not done.

act-unknown-material = the table has no material { $name }.
act-refused = { $name } goes on no place where something grows.
act-not-residue = { $name } is no residue that decays.
act-not-residue-remedy = Give it under [[feed]].
act-nothing-there = the amount of { $name } makes no layer on this place.
act-nothing-there-remedy = Give an amount above zero and the area of the place.
act-unknown-feed = the table has no feed { $name }.
act-unknown-rules = there are no rules called { $name }.
act-unknown-rules-remedy = Choose among { $names }.
act-wrong-measure = { $name } is stated in the wrong measure.
act-wrong-measure-remedy = Liquids go by volume_l, solids by amount_kg, either by nitrogen_kg_ha.
act-no-load = no load is described.
act-not-over-years = a container is emptied and filled anew: the view over years is of ground.
act-no-load-remedy = Add a [[put_down]] with a date, a material and an amount.
act-nothing-happens = nothing happens on this place.
act-missing = { $key } is missing.
act-missing-remedy = It is needed here: { $why }
act-figure = { $key } cannot be { $value }.
act-figure-between = It lies between { $low } and { $high }.
act-tree-rows = { $count } rows cannot be: a place has at least one row, and at most 100,000, of at most 100,000 trees.
act-no-tree = there is no tree { $tree } (row/tree) on this place.
act-trees-backwards = tree { $to } comes before { $from } on this drive: swap them, or say drive = "same-way" or "serpentine" as the rows are driven.
act-no-trees = a load goes to one tree at least.
act-nothing-measured = nothing was measured; give at least one figure.
act-before = { $what } is of { $date }; this would be before it.
act-before-remedy = Give that day or a later one, or correct the day of { $what }.
act-more-than-lies = { $percent } % of this layer still lies there; lift that much or less.
act-nothing-grows = nothing grows on a path or a yard.
act-nothing-grows-remedy = Lift what lies there instead of digging it in.
act-closed-already = { $what } is closed already.
act-no-blend = a blend takes two batches or more, each once, with dry matter in them.
act-read-twice = zone { $zone } has a reading of that time already.
act-read-twice-whole = this pile has a reading of that time already.
act-read-twice-remedy = Leave one of them out, or write the time of day of each: time = "07:30".
act-nothing-left = nothing is left of this batch, or nobody knows how much.
act-nothing-left-remedy = Say how much of it is meant: --barrows.
act-no-change = this entry does not take that change: { $why }
act-weather = this weather cannot be: { $why }
act-not-there = { $what } is not in the book.
act-thing-place = this place
act-no-pile = a pile takes one batch or more, each once, with dry matter in them.
act-more-than-went-in = only { $kg } kg of dry mass went into this pile.
act-more-than-went-in-remedy = Check the weight and the moisture: no more dry mass can come out than went in.
act-thing-pile = this pile
act-thing-trial = this trial
act-thing-last-score = the last score of the trial
act-trial-names = { $names } names stand for { $levels } treatments.
act-trial-comparison = { $what } compares nothing.
act-trial-comparison-remedy = Name treatments of the trial, each once; weights of a contrast are whole and sum to nothing, as in 3, -1, -1, -1.
act-trial-seed = the seed { $seed } is too large for the book.
act-no-plot = the trial has no plot { $plot }.
act-no-plot-remedy = Its plots go from { $first } to { $last }; look at the stake.
act-plot-lost = plot { $plot } was lost on { $date }.
act-plot-lost-remedy = Take that entry out if it counts after all.
act-scored-twice = plot { $plot } has a score of these leaves by this person on this day.
act-scored-twice-remedy = Correct that score; or say again = true if it was scored a second time on purpose.
act-nothing-to-repeat = plot { $plot } has no first score on this day, so there is nothing to score again.
act-trial-open = the trial is still open; what the plots got is not told yet.
act-trial-open-remedy = Close it when all is scored and measured: from then on nobody scores blind.
act-trial-nothing = nothing of that sort was read in the trial.
act-trial-structure = the layout in the book makes no trial: { $why }
act-thing-batch = this batch
act-thing-layer = this layer
act-thing-crop = this crop
act-thing-task = this task
act-thing-person = this person
act-thing-holding = the holding
act-thing-reference-plot = this reference plot
act-thing-entry = this entry
act-unfit-no-place = it is about no place.
act-unfit-here-already = it is about that place already.
act-unfit-same-entry = both are one entry.
act-unfit-no-load = it is no load that was taken in.
act-unfit-other-quantity = the units measure different things.
act-unfit-same-unit = both units are the same.
act-unfit-unreadable = it does not read.
act-unfit-no-such-amount = it holds no amount in such a unit.
act-unfit-not-out = it was not taken out.
act-unfit-not-at-odds = this is none of the changes at odds.
act-soil = the soil cannot be: { $why }
act-model = the nitrogen model cannot run this: { $why }
act-near = Was one of these meant: { $names }?

# Ways at equal nitrogen.
equal-bare-nitrogen-mixed = Nothing put down, nitrogen mixed in
equal-worked-in-nitrogen-mixed = Worked in, nitrogen mixed in
equal-on-top-nitrogen-mixed-first = On top, nitrogen mixed into the soil first
equal-on-top-nitrogen-sprinkled = On top, nitrogen sprinkled on it
equal-on-top-over-nitrogen = On top, over the nitrogen
equal-on-top-over-compost = On top, over compost that holds it
equal-composted-first = Composted first with it, then worked in

dose-quick-on-top = Laid on top, decay takes about { $middle } here ({ $low } to { $high }).
dose-gives = This material gives nitrogen rather than holding it; no quick answer is needed.

# The model's own input.
desk-model-syntax = this is no input of the model: { $why }
desk-model-help = The keys are those of docs/nitrogen-model.md.
desk-model-value = { $key }: { $why }

# Readings.
readings-syntax = these readings cannot be read: { $why }
readings-help = A file of readings has [[soil_nitrate]] (date and kg_ha, nitrate_n_ppm or nitrate_ppm), [[draw_test]] or [[leaf]] (date, nutrition_index).
readings-value = { $key } is missing, outside its range, or not within the forecast.
readings-one-figure = a [[soil_nitrate]] has exactly one of kg_ha, nitrate_n_ppm and nitrate_ppm.
readings-none = there is no reading in this file.
act-reading-outside = a reading of { $key } does not lie within the year that the forecast covers, or its crop or layer is not there.

act-book = the book did not take this: { $why }

# The demo.
demo-plays = Playing an invented season
demo-invented = This holding, its people and its season are invented.
demo-grower = the grower (invented)
demo-joinery = a joinery (invented)
demo-helper = Helper
demo-count-why = Counted at the end of the season
demo-batch-lifted = Old path chips
demo-bed-bare = Bed 1, nothing put down
demo-bed-worked-in = Bed 2, sawdust worked in
demo-bed-on-top = Bed 3, sawdust on top
demo-bed-over-compost = Bed 4, on top over compost
demo-bed-over-urine = Bed 5, on top over urine
demo-bed-composted = Bed 6, composted first
demo-path = Middle path
demo-trees = Apple row
demo-batch-sawdust = Spring sawdust
demo-batch-compost = Finished compost
demo-batch-composted = Compost of the pile
demo-batch-autumn = Sawdust of autumn
demo-batch-manure = Manure of autumn
demo-pile = Pile by the gate
demo-trial = Sawdust at equal nitrogen
demo-trial-bare = nothing but nitrogen
demo-trial-worked-in = worked in
demo-trial-over-compost = on top over compost
demo-trial-composted = composted first
demo-trial-ample = worked in, ample nitrogen
demo-batch-chips = Chips from prunings
demo-batch-refused = Dust from a board saw
demo-wrong-bed = it went to bed 2, not to bed 3
demo-note = The old leaves of bed 2 are pale; the other beds are green.
demo-asked = { $containers } of { $material } on { $place }, { $crop } from { $date }: how best to use it?
demo-split = { $crop } for the crop anyway, { $wood } because of the wood
demo-report = The report: { $file }
demo-book = The book: { $file }, { $entries } entries
demo-next = To check the book: kerfbook book verify { $file }
demo-not-ours = this file is not a demo's book, so it stays as it is.
demo-not-ours-remedy = Choose another folder with --out.
demo-cannot-replace = { $file } cannot be written: { $why }
compare-not-allowed = not allowed here until local rules are confirmed
compare-not-at-hand = listed for comparison; urine is not at hand
place-kind-rings = rings under trees
wait-composted-spread = That heap holds { $brought } for this place; spread it over at least { $area }, for rules such as the Nitrates Directive (91/676/EEC, 1991) allow { $limit } a year from manure. Ask what holds where you are.

# Words that are taken for granted.
taken-half-of-what-is-not-clay = half of what is not clay
taken-cattle-manure = cattle manure
taken-usual-year = the usual year
taken-carried-off = carried off
taken-bed = bed
taken-mixed = mixed in
taken-on-top = on top
taken-worked-in = worked in

# A cost whose middle is nothing.
cost-up-to = Costs the crop next to nothing, { $most } at most.
cost-gain-up-to = Gives the crop next to nothing, { $most } at most.
