# What a phone's screens say. Texts without arguments become labels of the screens; those with arguments are said by the core.

## Fields
phone-needed = Something has to stand here.
phone-not-a-number = "{ $typed }" is no number. Type digits, like 2 or 2.5.
phone-not-above-zero = This has to be more than 0.
phone-not-whole = This has to be a whole number.
phone-name-too-long = At most 40 characters fit here.
phone-choose = Choose one.
phone-too-many-weeks = At most 52 weeks: a crop that stands longer is a tree or a meadow.
phone-gap-too-wide = The gap has to be less than the distance to the drip line.
phone-no-tree = Write each tree as row and tree, like 12/3, with a space between them.
phone-too-many-rows = At most 1000 rows fit in one place.
phone-load-has-no-depth = A load is counted in containers or weighed.
phone-no-trailer = Say first how much your trailer holds.
phone-nothing-seen = Say at least one thing that you saw.

## Books
phone-book-damaged = The book on this phone is damaged. It is set aside as it is; what is sound in it can be read on a computer.
phone-not-written = This could not be written to the phone. Nothing of it is in the book, and what you typed is still here: see that there is room, then try again.
phone-no-book = There is no book on this phone yet.

## Amounts
phone-left = { $amount } left

## The answer
phone-past-left-out = What lay here or grew here before this season is not in this answer.

## Screens
phone-today = Today
phone-places = Places
phone-put-down = Put down
phone-look = Look
phone-book = Book
phone-place = Place
phone-new-place = New place
phone-new-load = New load
phone-found = Your field book
phone-back = Back
phone-save = Save
phone-done = Done
phone-cancel = Cancel
phone-undo = Undo
phone-yes = Yes
phone-no = No
phone-dont-know = Don’t know
phone-in-the-book = In the book
phone-taken-out = Taken out again
phone-try-again = Try again
phone-no-opening = The book does not open

## First run
phone-found-about = Everything stays on this phone. There is no account, and nothing is sent anywhere.
phone-found-name = What is your farm, garden or orchard called?
phone-found-food = What grows here is
phone-food-own = for ourselves
phone-food-sold = sold
phone-food-certified = sold as certified organic
phone-found-start = Start the book
phone-device = Phone

## Today
phone-today-first-place = Start with a place: a bed, a row, the ground under trees.
phone-today-first-load = Then take in a load of sawdust, chips or bark.
phone-today-tasks = To do
phone-today-no-tasks = Nothing needs doing in the next two weeks.
phone-today-waits = What the forecasts ask for is being worked out.
phone-today-more = Show more

## Places
phone-places-none = No place is in the book yet.
phone-places-show = Show
phone-places-list = List
phone-places-map = Map
phone-map-none = Nothing can be drawn yet: of these places only the size is known. Tape or walk one, and it is drawn.
phone-place-closed = closed
phone-place-happened = What happened here
phone-place-name = Name
phone-place-ground = What is it?
phone-ground-bed = Bed
phone-ground-row = Row
phone-ground-rings = Tree rings
phone-ground-path = Path
phone-ground-yard = Yard for heaps
phone-ground-container = Pots or boxes
phone-place-by = How do you give its size?
phone-by-tape = Length and width
phone-by-area = Area
phone-length-m = Length, m
phone-length-ft = Length, ft
phone-width-m = Width, m
phone-width-ft = Width, ft
phone-area-m2 = Area, m²
phone-area-ft2 = Area, sq ft
phone-trees = Number of trees
phone-radius-m = Trunk to drip line, m
phone-radius-ft = Trunk to drip line, ft
phone-gap-cm = Gap kept at the trunk, cm
phone-gap-in = Gap kept at the trunk, in
phone-by-sides = Sides and diagonals
phone-by-one-size = Trees by their number
phone-by-rows = Rows of trees
phone-place-by-trees = How do the trees stand?
phone-sides-about = Name the corners A, B, C and D as you go round. For a triangle leave C–D and D–A empty.
phone-side-ab = A to B
phone-side-bc = B to C
phone-side-cd = C to D
phone-side-da = D to A
phone-side-ac = A to C, across
phone-side-bd = B to D, across, as a check
phone-first-row = Number of the first row
phone-rows = How many rows
phone-row-trees = Trees in each row
phone-spacing-m = From tree to tree, m
phone-spacing-ft = From tree to tree, ft
phone-row-spacing-m = From row to row, m, where you know it
phone-row-spacing-ft = From row to row, ft, where you know it
phone-missing-trees = Missing trees, like 12/3 13/7
phone-pots = How many
phone-volume-l = Each holds, litres
phone-volume-gal = Each holds, gallons
phone-across-cm = Across the top, cm
phone-across-in = Across the top, in

## A load
phone-load-material = What is it?
phone-load-measure = Counted in
phone-load-amount = How many, or how much
phone-load-feel = What does a handful feel like?
phone-load-from = From whom
phone-load-label = Name for this load
phone-load-take-in = Take it in
phone-load-refused = Sent away, and written down
phone-ask-treated = Is treated, painted or glued wood in it?
phone-ask-diseased = Were the trees diseased?
phone-ask-salty = Did the logs float in the sea?
phone-ask-medicines = Were the animals given medicines?
phone-ask-weedkillers = Was it sprayed with weedkillers that last?
phone-feel-dusty = Dusty
phone-feel-damp = Cool and damp
phone-feel-drips = Drips when squeezed

## Put down
phone-put-down-where = Where?
phone-put-down-what = Which load?
phone-put-down-much = How much?
phone-put-down-other = Another amount
phone-put-down-measure = Counted in
phone-run = Along which trees?
phone-run-from = From row
phone-run-from-tree = From tree
phone-run-to = To row
phone-run-to-tree = To tree
phone-run-at-end = The last tree of this place has its load.
phone-run-about = Leave these empty for all the trees.
phone-put-down-how = How will you use it?
phone-put-down-say-first = Say where, which and how much
phone-put-down-thinking = Working it out
phone-answer = The answer
phone-barrows = Barrows
phone-buckets = Buckets
phone-trailers = Trailers
phone-depth = Depth
phone-mass = Weight
phone-same-again = Same again
phone-something-else = Something else
phone-way-path = On the path
phone-way-ring = As a ring
phone-way-on-top = On top
phone-put-down-enough = Take this amount

## A crop
phone-new-crop = What grows here
phone-crop-name = Crop
phone-crop-hunger = How hungry is it?
phone-hunger-light = Light, like lettuce
phone-hunger-middling = Middling, like tomato
phone-hunger-hungry = Hungry, like cabbage
phone-crop-weeks = Weeks from today until it is harvested

## Look
phone-look-where = Where are you?
phone-look-yellow = The old leaves
phone-yellow-none = All green
phone-yellow-some = Some yellow
phone-yellow-much = Much yellow
phone-not-looked = Not looked
phone-look-depth-cm = Depth of the layer, cm
phone-look-depth-in = Depth of the layer, in
phone-look-rain-mm = Rain in the gauge today, mm
phone-look-rain-in = Rain in the gauge today, in
phone-look-strip = Soil strip, mg/kg (ppm)
phone-look-states = The strip states
phone-strip-nitrate = Nitrate
phone-strip-nitrate-n = Nitrate nitrogen

## Book
phone-book-more = Older entries
phone-book-take-out = Take out
phone-book-put-back = Put back
phone-book-sure = Take this entry out? It stays in the book, struck through, and can be put back.
phone-book-back = Put this entry back? It then counts again.
phone-book-move = It was another place
phone-book-unit = Another unit was meant

## Units taken for each other
slip = { $meant }, not { $written }
slip-unit-kg = kg
slip-unit-lb = lb
slip-unit-l = L
slip-unit-us-gal = gallons
slip-unit-mm = mm
slip-unit-cm = cm
slip-unit-in = inches
slip-unit-m2 = m²
slip-unit-ft2 = sq ft

## Settings
phone-settings = Settings
phone-settings-who = Who writes on this phone?
phone-settings-nobody = Nobody named
phone-settings-name = Somebody else
phone-settings-add = Add this name
phone-settings-language = Language
phone-language-en = English
phone-language-es = Español
phone-as-the-phone = As the phone
phone-settings-units = Units
phone-units-metric = Metric
phone-units-us = US
phone-settings-containers = Your containers, level full
phone-settings-usual = Where nothing stands, the usual barrow and bucket count, and no trailer.
phone-barrow-l = Barrow, litres
phone-barrow-gal = Barrow, gallons
phone-bucket-l = Bucket, litres
phone-bucket-gal = Bucket, gallons
phone-trailer-m3 = Trailer, m³
phone-trailer-yd3 = Trailer, cubic yards

## Hand-over
phone-hand-over = Hand over a copy
phone-hand-over-about = The copy holds everything, names and notes too. It can be read and checked on a computer.

## Trials
phone-trials = Trials
phone-trial = Trial
phone-new-trial = New trial
phone-score = Score
phone-trials-none = No trial is in the book yet. Plots side by side, drawn by lot, can settle which way serves your ground.
phone-trial-is-open = open
phone-trial-is-closed = closed
phone-trial-name = Name of the trial
phone-trial-compared = What is compared
phone-trial-first = The first is what the others are held against.
phone-trial-a = First
phone-trial-b = Second
phone-trial-c = Third
phone-trial-d = Fourth
phone-trial-blocks = How many blocks
phone-trial-blocks-about = Each block holds every one of them once. Four blocks or more are advised; with one it is a demonstration.
phone-trial-equal = Bring the same nitrogen in each, or nobody can say whether the residue did it or the nitrogen.
phone-trial-draw = Draw the plots
phone-trial-two = Name two to six things to compare.
phone-trial-name-twice = This name stands there already.
phone-trial-name-there = The book has a trial of this name.
phone-trial-many-blocks = At most 12 blocks; more are planned at a computer.
phone-trial-last = Scored last on { $date }: { $scored } of { $plots } plots.
phone-trial-blind = What each plot got is told when the trial is closed, so that whoever scores stays blind.
phone-trial-layout = What goes where
phone-trial-layout-about = Whoever opens this is no longer blind: let somebody else score.
phone-trial-layout-open = Open it
phone-trial-close = Close the trial
phone-trial-close-about = After closing nothing is scored any more, and what each plot got is told.
phone-trial-shows = What it shows
phone-trial-nothing = Nothing was read on its plots that could be judged.
phone-plot-at = row { $row }, place { $place }
phone-plot = Plot
phone-score-what = What is read
phone-leaves-old = old leaves
phone-leaves-middle = middle leaves
phone-leaves-young = young leaves
phone-score-yield = what was picked
phone-score-yellow = Yellow of these leaves, %
phone-score-picked-kg = Picked, kg
phone-score-picked-lb = Picked, lb
phone-score-next = Save, next plot
phone-score-skip = Pass by
phone-score-lost = This plot is lost
phone-score-reason = Why it is lost
phone-score-done = All plots are read for today.

## Piles
phone-piles = Piles
phone-pile = Pile
phone-new-pile = New pile
phone-read-heat = Read the heat
phone-turn-pile = Turn the pile
phone-finish-pile = Take the pile down
phone-piles-none = No pile is in the book yet. Residue that is composted first takes least from a crop.
phone-pile-unread = nobody has read its heat yet
phone-pile-last = { $heat } at most, { $date }
phone-pile-is-batch = became { $batch } on { $date }
phone-pile-name = Name for this pile
phone-pile-inside = What goes in, of each batch
phone-pile-no-batch = Take in a load first: what goes into a pile comes out of a batch.
phone-pile-parts = Say how much of at least one batch goes in.
phone-water-l = Water added, litres
phone-water-gal = Water added, gallons
phone-pile-rule = Is it to meet a heat rule?
phone-pile-no-rule = None
phone-pile-rule-choose = Choose a rule
phone-pile-comes-to = What it comes to
phone-pile-build = Build the pile
phone-pile-state = How it stands
phone-heat-zone = Where is the probe?
phone-heat-c = Heat, °C
phone-heat-f = Heat, °F
phone-heat-smoke = Does it smoke, or smell of burning?
phone-heat-more = Depth and moisture too
phone-heat-depth-cm = Depth of the probe, cm
phone-heat-depth-in = Depth of the probe, in
phone-moisture-pct = Moisture, % of the wet mass
phone-heat-next = Save, next zone
phone-heat-smoke-first = Keep away and call the fire service first. Write a heat down only if it was read before.
phone-heat-perhaps-f = Water boils at 100 °C, and no pile gets hotter. Are these degrees Fahrenheit? Then choose US units in the settings. If the figure is right, keep away and call the fire service.
phone-heat-beyond = No pile gets that hot or that cold: water boils at 212 °F. Look again. If the figure is right, keep away and call the fire service.
phone-turn-save = It is turned
phone-finish-about = What you leave empty is reckoned from what went in and the usual losses.
phone-finish-name = Name for the batch
phone-finish-ratio = C:N by a laboratory
phone-finish-save = It is a batch now
phone-pile-became = About { $mass }; { $lost } of the dry mass went off; C:N { $ratio }.
phone-pile-reckoned = That is reckoned, not measured: a test of the batch says more.

## A walk
phone-walk = Walk round it
phone-by-walk = By walking
phone-walk-about = Hold the phone open to the sky, walk the edge once round to where you began, then once more five minutes later. The screen may go dark meanwhile.
phone-walk-start = Start walking
phone-walk-go-on = Go on walking
phone-walk-stop = Stop here
phone-walk-forget = Forget this walk
phone-walk-trees = Does it go under trees?
phone-walk-begins = Waiting for the first fixes.
phone-walk-accuracy = fixes within { $accuracy }
phone-walk-way = { $way } of way
phone-walk-drawn = The path so far: the dot is its start, the ring is where you are.
phone-walk-no-place = No place can be made of this walk. Walk it again, or measure with a tape.
phone-walk-denied = Without leave to know where the phone is, there is no walk. Measure with a tape, or give leave in the phone’s settings.
phone-walk-off = Location is switched off on this phone. Switch it on, or measure with a tape.
phone-walk-tape = Measure with a tape
phone-walk-notice = Walking round a place
phone-walk-notice-about = Fixes stay on this phone.
phone-place-name-there = A place of this name is in the book.
phone-unit-m = m
phone-unit-ft = ft
