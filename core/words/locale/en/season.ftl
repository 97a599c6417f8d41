# What lies, what is there, what needs doing: the season as the book has it.

## What needs doing
today-nothing = Nothing needs doing until { $date }.
today-heading = What needs doing on { $date }, and in the { $days } days after it
today-no-day = no day set
today-overdue = overdue
today-for = for { $person }
today-holding = The holding
todo-look = Look at the old leaves
todo-feed = Give nitrogen
todo-top-up = Top up the layer
todo-check-gap = Check the gap at the trunks
todo-water = Water
todo-test = Test
todo-dig-in = Decide: dig in, lift, or leave it and plant through
todo-air = Air the heap
todo-other = Do
todo-read-heat = Read the heat
todo-turn = Turn the pile
todo-keep-away = Keep away and call the fire service
reason-ordered = as ordered
reason-ordered-text = { $text }
reason-forecast-hungry = the forecast that was acted on says look; the crop may be hungry from { $date }
reason-forecast = the forecast that was acted on says look
reason-planned = by the feed plan: { $amount } of { $source }, { $nitrogen }
reason-settled = the layer has gone down to about { $lies }; { $wanted } was wanted
reason-settled-unknown = the layer has gone down
reason-gap-unseen = nobody has looked since { $date }
reason-gap-closed = { $gap } was found; { $wanted } is wanted
reason-emitters-blocked = { $count } blocked emitters were found
reason-dry = { $came } of water in { $days } days; a crop wants { $wanted }
reason-draw-unknown = how much nitrogen it still draws is not known: draw test or seedling test before it is spread
reason-draw-unknown-from = lifted from { $place }; how much nitrogen it still draws is not known: draw test or seedling test before it is spread
reason-before-hunger = a soil nitrate test now says whether hunger comes; it may from { $date }
reason-heap-unsmelled = it has lain since { $date } and may have gone sour; smell it before it is spread
reason-mulch-before-preparation = a mulch lies here and the crop ends about { $date }
reason-sour = sour; fit from { $from } at the earliest, wait until { $until } if the smell stays
reason-heat-unread = nobody has read its heat since { $date }
reason-pile-hot = { $heat } was read on { $date }: a pile this hot is read every day
reason-pile-burns = it smoked or was far too hot on { $date }; do not open it
reason-rule-unmet = { $rule } is not met yet, and a day that nobody reads counts for nothing
reason-rule-turnings = { $count ->
    [one] { $rule } wants { $n } more turning
   *[other] { $rule } wants { $n } more turnings
}
reason-turn-hot = it is too hot for its own organisms
reason-turn-cooled = it has cooled while there is still something to decay
reason-turn-airless = it is short of air
reason-pile-dry = { $moisture } moisture was read; under { $least } it hardly works

## What there is
stock-nothing = No batch is in this book.
stock-batch = Batch
stock-material = What it is
stock-came = Came
stock-went = Went
stock-left = Left
stock-counted = counted on { $date }
stock-notes = To mind
stock-overdrawn = more went than there was; a count settles it
stock-unknown = { $count } uses of unknown size
stock-sour = sour
stock-treatment-unknown = treated or not is not known
stock-unsettled = two corrections wait for a person
stock-seedlings-hurt = seedlings grown in it were hurt: not where beans, peas, potatoes or tomatoes grow
stock-not-ready = a test says that it is not ready
stock-doubtful = rests on an entry in doubt
stock-unweighed = not measured
stock-none = nothing
stock-short = short by { $mass }, { $containers }
stock-in-containers = { $mass }, { $containers }

## Entries from a file
enter-warnings = What this changes:
enter-cautions = To mind:
enter-written = { $count } entries are in the book.
enter-tried = Tried only: { $count } entries would go in. The book is as it was.
enter-stopped = Nothing was written. { $warnings }
enter-even-so = Write it all the same with --even-so.
enter-no-person = No person of the name { $name } is in the book.
enter-no-time = { $value } is no time of day.
enter-write-time = Write it as time = "07:30".
enter-perhaps-fahrenheit = Are these degrees Fahrenheit? Then write temperature_f. If the figure is right, keep away and call the fire service.
enter-two-of-a-name = Two are called { $name }.
enter-two-of-a-name-remedy = Give one of them another name in the book first (book correct).
enter-name-first = Name it first: with a row of its own before this one.
enter-unknown-name = Nothing in the book is called { $name }.
enter-no-tree = { $value } names no tree: write the row and the number of the tree in it, from 1.
enter-no-task = No open task of that sort is here.
enter-no-task-remedy = today lists what is open.
enter-blend-amounts = A blend needs as many amounts as batches, all in wet_kg or all in barrows.
enter-which-layer = More than one layer lies here; say which batch it came from.
enter-nothing-lies = Nothing lies here that could be lifted.
enter-no-such-crop = No { $name } stands here.
enter-no-such-crop-remedy = Name a crop that was started here and has not ended.
enter-dig-in-costs = Working { $place } to { $depth } digs in what lies there: that costs the crop about { $lost }, and { $tied } more is tied up 60 days on.
enter-dig-in-ties = Working { $place } to { $depth } digs in what lies there: { $tied } more is tied up 60 days on. Nothing grows there now.

## A place
place-lies = What lies here
place-nothing-lies = Nothing lies here.
place-layer = { $batch }, { $days } old: { $depth }{ $state }
place-dug-in = , dug in on { $date }
place-lifted = , { $share } of it lifted
place-depth-now = In all about { $depth }.
place-top-up = Top up about { $date } ({ $earliest } to { $latest }): { $loss } a year are lost ({ $source }).
place-top-up-now = It has gone under { $wanted } already: top up. { $loss } a year are lost ({ $source }).
place-hungry = The crop may be hungry from { $early }, in the middle case from { $date }; on the bare ground from { $bare }.
place-hungry-middle = The crop may be hungry from { $early }; in most runs it is not.
place-not-hungry = The crop is not hungry in nine runs of ten.
place-no-crop = Nothing grows here now or soon.
place-chance = Chance of hunger { $chance }.
place-cost = What lies here costs the crop about { $lost }.
place-tied = Held by decay today: { $tied }.
place-mineral = Mineral nitrogen today: { $mineral }.
place-left-out = Left out of the sums: { $entry }, { $why }.
place-readings = Weighed by { $count } readings; { $runs } runs count.
why-no-amount = how much is not known
why-not-in-table = what it is is not in the tables
why-refused = it was refused
why-ends-before-start = it ends before it starts
why-nothing-grows = nothing grows there
why-lifted-too-much = more was lifted than lay there
why-not-that-day = nothing of it lay there on that day
why-circle = it comes back to where it came from
why-no-figure = it holds no figure that the model can use
why-plain-answer = it was answered by eye
why-old-material = it is of material that has decayed already
why-stale = it is too old for a start
why-before-first = it is before the first day looked at
why-impossible = its figures make nothing that the model can hold
why-not-there = what it names is not there

## Forecasts judged
judge-never = never
judge-where = Place
judge-when = Read on
judge-what = What
judge-foretold = Foretold (P10 to P90)
judge-read = Read
judge-inside = inside
judge-outside = outside
judge-mineral = mineral nitrogen
judge-hungry = hunger
enter-scores-unlike = there are { $plots } numbers under plots and { $scores } under yellow_pct: each plot has one score.
