# What the desk command says about files that people write. Keys, names and values stand as in the file.

## Files
desk-no-such-file = there is no such file. Check the name and the folder.
desk-may-not-read = you have no right to read this file. Ask whoever owns it, or copy it to a folder of your own.
desk-cannot-read = this file cannot be read: { $why }
desk-is-folder = this is a folder; a file is wanted.
desk-empty-file = this file is empty. Start from one of the examples in fixtures/scenarios.
desk-too-large = this file is larger than { $most } kB, the most that is read.
desk-other-program = this is a file of another program ({ $what }), not plain text.
desk-plain-text-wanted = Write it as plain text in UTF-8; a spreadsheet is exported as CSV.
desk-not-utf8 = this character is not UTF-8.
desk-save-as-utf8 = Save the file again as plain text with the encoding UTF-8.
desk-cannot-write = { $file } cannot be written: { $why }. Nothing was changed.
desk-cannot-make-folder = the folder { $file } cannot be made: { $why }. Nothing was changed.
desk-cannot-print = the answer cannot be printed: { $why }
desk-cannot-read-key = the device key { $file } cannot be used: { $why }. Put back the one you had, or move it away and have this computer enrolled anew.
desk-no-randomness = the system gives no random numbers: { $why }
desk-no-home = there is no folder for the device key. Set KERFBOOK_HOME to one that only you can read.

## Form of the file
desk-not-toml = this line cannot be read ({ $detail }).
desk-other-form = this file looks like { $what }, and a scenario is TOML.
desk-toml-form = A line is: key = value. Text and names stand in quotes, lists in [ ] with commas between, a comment after #.
desk-twice = this stands twice.
desk-keep-one-line = Keep one of them.
desk-decimal-comma = { $key } is written with a decimal comma: { $value }
desk-decimal-comma-in-list = 24 whole numbers: were decimal commas meant? Write 12.5 with a point, and a comma only between months.
desk-unit-after-number = { $key } has more after its number: { $value }. The unit is already in the key.
desk-quote-open = a quotation mark opens here and does not close.
desk-close-quote = Text stands between two quotation marks on one line.
desk-no-equals = there is no = on this line.
desk-needs-quotes = { $key } is text and needs quotes.
desk-unknown-section = there is no section { $name }.
desk-known-sections = The sections are { $names }.
desk-section-once = { $name } can stand only once.
desk-section-repeats = { $name } can stand several times and needs double brackets.
desk-section-is-value = { $name } is a section, not a value.
desk-write-header = Write { $header } on a line of its own, with its keys below it.
desk-unknown-key = { $section } has no key { $key }.
desk-unknown-key-here = there is no key { $key } in such a file.
desk-key-belongs = { $key } belongs in { $section }.
desk-did-you-mean = Was { $name } meant?
desk-known-keys = Its keys are { $names }.
desk-missing-key = { $section } lacks { $key }.
desk-missing-key-here = { $key } is missing.
desk-missing-section = { $section } is missing, and with it { $key }.
desk-add-line = Add { $line } under { $section }.
desk-add-line-here = Add { $line }
desk-one-missing = { $section } needs one of { $keys }.
desk-one-missing-here = one of { $keys } is needed.
desk-two-given = { $first } and { $second } are both given.
desk-keep-one = Keep only one of { $keys }.

## Values
desk-text-for-number = { $key } must be a number without quotes, not { $value }.
desk-needs-number = { $key } must be a number, not { $value }.
desk-needs-whole-number = { $key } must be a whole number, not { $value }.
desk-not-finite = { $key } is { $value }, which is no usable number.
desk-leave-out-if-unknown = Leave the line out where the figure is not known.
desk-out-of-range = { $key } is { $value }; it must lie from { $low } to { $high }.
desk-out-of-range-above = { $key } is { $value }; it must be more than { $low } and at most { $high }.
desk-needs-text = { $key } must be a short text in quotes, not { $value }.
desk-needs-texts = { $key } must be a list of names in quotes, not { $value }.
desk-needs-flag = { $key } must be true or false, not { $value }.
desk-needs-date = { $key } must be a day as year-month-day, not { $value }.
desk-year-out-of-range = { $key } is { $value }; years from 1900 to 2199 are read.
desk-needs-months = { $key } must be a list of twelve numbers, January first, not { $value }.
desk-not-twelve = { $key } has { $count } values.
desk-twelve-months = Give twelve, January first, also south of the equator.
desk-not-a-choice = { $key } cannot be { $value }.
desk-choose = It can be { $names }.
desk-choose-near = Was "{ $name }" meant? It can be { $names }.
desk-write-number = Write { $line }
desk-write-like = Write it like this: { $line }

## Ground
desk-latitude-or-evaporation = Evaporation has to be estimated and needs the latitude: add latitude_deg (north positive) under [holding], or month_et0_mm_day under [weather].
desk-latitude-for-estimate = at latitude { $value } evaporation cannot be estimated from temperature: beyond 66° some days have no sunrise or no sunset.
desk-give-evaporation = Give month_et0_mm_day under [weather].
desk-clay-and-sand = clay and sand together make { $sum } %.
desk-check-both = Check both figures.
desk-organic-matter-hint = Where there is no soil test: light sand 1 to 2, loam 2 to 4, rich garden soil 5 to 8 (common practice).
desk-looks-like-kg-m3 = This looks like kg/m3. In g/cm3: { $line }
desk-looks-like-g-cm3 = This looks like g/cm3. In kg/m3: { $line }
desk-sampled-without-result = a day of sampling is given, but no result.
desk-add-soil-test = Add mineral_nitrogen_kg_ha, nitrate_n_ppm or nitrate_ppm, or leave sampled out.
desk-more-available-than-capacity = available_water_mm is more than field_capacity_mm, of which it is a part.
desk-volume-of-no-container = volume_l is for containers, and this place is none.
desk-say-container = Write kind = "container", or leave volume_l out.

## Weather
desk-date-outside-weather = { $key } is { $date }, and the weather file goes from { $first } to { $last }.
desk-lengthen-weather = Add the missing days to the weather file, or leave daily out and go by the usual year.
desk-normals-missing = { $key } is missing, and the weather file does not cover a whole year from which it could be taken.
desk-day-heading = the first line of the weather file is { $text }.
desk-day-separator = the columns of this weather file are not separated by commas.
desk-day-columns = this line has { $found } columns, and the first line has { $expected }.
desk-day-comma-or-column = Is there a decimal comma? Write 12.5 with a point; commas only separate columns.
desk-day-twice = { $date } stands a second time.
desk-day-order = { $date } comes after { $before }.
desk-day-in-order = Put the days in order, the oldest first.
desk-day-gap = { $missing } is missing before { $date }.
desk-day-every = Every day needs a line; a day without rain has 0.
desk-day-none = no day follows the first line.
desk-weather-file-whole = the weather file { $name } cannot be used: { $why }
desk-weather-columns = The first line names the columns: date,mean_c,rain_mm and, if known, et0_mm. Then one line a day without gaps, numbers with a point.

## Crops and loads
desk-nothing-happens = neither a crop nor a load is described.
desk-add-crop-or-load = Add [[crop]] with name, started and ended, or [[put_down]] with date, material and an amount.
desk-ended-before-started = the crop ends on { $ended }, and starts on { $started }.
desk-check-both-days = Check both days.
desk-crop-too-long = the crop lasts { $days } days; at most { $most } are read.
desk-crop-a-year = Write one [[crop]] a year for what stands longer.
desk-crops-overlap = { $key } is { $started }, before the crop that ends on { $ended } ({ $other }).
desk-one-crop-at-a-time = One crop at a time: for a mixture write one [[crop]] with the need of both together.
desk-midpoint-after-end = midpoint_day is { $value }, and the crop lasts { $days } days.
desk-midpoint-meaning = It is the number of days from started to half of the uptake.
desk-crop-need = Say what the crop needs: name = "cabbage", or uptake_kg_ha = 120, or appetite = "light", "middling" or "hungry".
desk-unknown-crop = the crop { $name } is not in the table.
desk-unknown-crop-near = Was { $names } meant? Otherwise add uptake_kg_ha = 120, or appetite = "light", "middling" or "hungry".
desk-unknown-material = the material { $name } is not in the table.
desk-unknown-material-near = Was one of these meant: { $names }? "unknown wood" is an answer, too.
desk-unknown-material-any = Name the wood and its form, such as "hardwood sawdust" or "softwood chips"; "unknown wood" is an answer, too.
desk-refused-material = { $name } is refused for every place where something grows. { $caution }
desk-not-residue = { $name } is no residue that decays.
desk-give-as-feed = Give it under [[feed]], if it is given for its nitrogen.
desk-unknown-feed = the feed { $name } is not in the table.
desk-unknown-feed-near = Was one of these meant: { $names }?
desk-unknown-feed-any = It can be "urea", "blood meal", "compost" and others.
desk-feed-measure = { $name } is not measured by { $key }.
desk-feed-measure-right = Give { $key }, or nitrogen_kg_ha.
desk-moisture-over-100 = moisture_pct is { $value }; of wet mass no more than 100 % can be water. Was it measured on the oven-dry basis?
desk-moisture-dry-basis = If so, the wet-basis figure is { $line }
desk-too-deep = that makes a layer { $depth } m deep on { $area } m2.
desk-too-heavy = that makes { $load } kg on each square metre of { $area } m2.
desk-check-amount-and-area = Check the amount, its unit, and area_m2 under [place].

## The book
book-column-entry = Entry
book-column-date = Date
book-column-what = What
book-column-by = By
book-not-ours = this is no book of this program; it was left as it is.
book-damaged = this book is damaged ({ $why }). It was left as it is.
book-rebuild-keeps = kerfbook book rebuild { $path } sets it aside and keeps what verifies.
book-exists = there is a file of that name already; choose another name.
book-withdrawn = this entry was taken out. Take its withdrawal out first.
book-fixed = this entry founds the book or enrols a device and stays as it is.
book-wrong-kind = the entry named there is of another kind.
book-other = this could not be done: { $why }
book-locked = another program is writing this book. Nothing of this was written; try again.
book-list-entries = kerfbook book entries shows what the entries are called, such as 3f2a:12.
book-no-equals = { $text } is no FIELD=VALUE.
book-set-form = Write --set FIELD=VALUE, such as --set wet_g=180kg, --set date=2026-04-16 or --set place=3f2a:4.
book-why-date = a day is written year-month-day
book-why-entry = it must name an entry of this book, such as 3f2a:12
book-why-label = a label has 1 to 40 characters on one line
book-why-number = it must be a whole number
book-why-unit = it must be a number, with one of these units: { $units }
book-why-word = it must be one of { $names }
book-why-not-typed = this field is not typed
book-reason-diseased = from diseased plants
book-reason-salty = salty
book-reason-medicated = medicines or weedkillers in it
book-flag-rests-on-unknown = rests on an entry that has not come; not in the sums
book-flag-correction-unread = a correction does not read and was left out
book-flag-unreadable = does not read; not in the sums
book-finding-unreadable = Entry { $entry } does not read.
book-finding-misplaced = Entry { $entry } stands in another one's place.
book-finding-other-holding = Entry { $entry } belongs to another holding.
book-finding-broken = Entry { $entry } does not follow from the one before it: one of the two was changed.
book-finding-backwards = Entry { $entry } is earlier than the one before it.
book-finding-bad-signature = The signature over entry { $entry } is not its device's.
book-finding-not-signed = Entry { $entry } is not the one that was signed.
book-finding-unsigned = Device { $device }: entries { $from } to { $to } bear no signature.
book-finding-not-enrolled = Device { $device } is not enrolled.
book-finding-not-founded = The entry that founds the holding is missing.
book-finding-text-changed = A text was changed.
book-finding-projection-differs = The balances differ from the entries. kerfbook book rebuild works them out again.
book-finding-file = The file is damaged: { $why }

## Help of the command line
help-usage = Usage
help-commands = Commands
help-command = COMMAND
help-arguments = Arguments
help-options = Options
help-options-of = options
help-kerfbook = What woody residue does to a bed: how much nitrogen it holds, when it lets go, and what to do meanwhile.
help-kerfbook-json = One JSON document on standard output, also for errors
help-kerfbook-language = Language of all text; the system's where it is not given
help-kerfbook-units = Units of figures in text, metric where not given; JSON is always metric
help-kerfbook-help = Show this help
help-kerfbook-version = Show the version
help-demo = Play an invented season into a book and write its report
help-demo-out = Folder for the book and report.html; kerfbook-demo where not given
help-demo-seed = Seed of the figures; 1 where not given
help-compare = Set every way of using a load side by side, against nothing put down
help-compare-scenario = Description of the place, its weather, loads and crops
help-forecast = Run one season day by day
help-forecast-scenario = Description of the place, its weather, loads and crops
help-forecast-runs = Number of runs, 1 to 100000; 200 where not given
help-forecast-seed = Seed of the runs; 1 where not given
help-forecast-readings = Soil and leaf readings that narrow the range
help-forecast-model = The model's own input in place of a scenario; it holds its own runs and seed
help-dose = Mass, depth, loads and the most this place can take
help-dose-scenario = Description of the place, its weather, loads and crops
help-feeds = What to give and when, so that the crop stays out of hunger
help-feeds-scenario = Description of the place, its weather, loads and crops
help-feeds-chance = Chance of hunger that is allowed, in per cent from 0 to 90; 20 where not given
help-feeds-rules = Rules that bind, such as eu-nitrates; may stand several times
help-feeds-source = Source to plan for; may stand several times; those at hand where not given
help-purpose = The ways that serve what a load is for, with their price in nitrogen, work and money
help-purpose-scenario = Description of the place, its weather, loads and crops
help-purpose-wanted = What it is for: weeds, water, soil or use-up
help-purpose-load_price = Price of the whole load, in your money
help-purpose-hour_price = Price of an hour of work
help-purpose-compost_price = Price of a cubic metre of finished compost, to set against it
help-purpose-minutes = Minutes that a barrow takes in all
help-purpose-haul = How far the load is carried, metres; 30 where not given
help-rings = Ground under tree rings: overlaps counted once, trunk gaps left out
help-rings-file = Table with the columns x_m,y_m,radius_m and, if wanted, gap_m
help-pile-volume = Volume of a heap or a load from a few lengths
help-pile-volume-shape = Its shape and its lengths
help-book = The book itself: list, verify, rebuild, correct
help-book-entries = List the entries, oldest first
help-book-entries-file = The book
help-book-verify = Check every entry and signature; name what is missing or changed
help-book-verify-file = The book
help-book-rebuild = Work out all balances again from the entries
help-book-rebuild-file = The book
help-book-correct = Replace fields of an entry, or take it out, with a reason; the first one stays readable
help-book-correct-file = The book
help-book-correct-entry = The entry, as "book entries" shows it
help-book-correct-reason = Why
help-book-correct-set = A field and its right value; may be given several times
help-book-correct-withdraw = Take the entry out instead

## Wrong command lines
usage-missing = this is missing: { $names }
usage-unknown = { $name } is not known here.
usage-unknown-command = there is no command { $name }.
usage-no-command = say what to do: { $names }
usage-no-value = { $name } needs a value.
usage-value = { $name } cannot be { $value }.
usage-conflict = { $first } and { $second } cannot go together.
usage-other = this command line cannot be read.
usage-near = Was { $name } meant? --help shows how to use the command.
usage-help = --help shows how to use the command.
