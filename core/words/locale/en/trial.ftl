# Side-by-side plots: the plan, and what came of it.

## What may be said
trial-more = Plots with { $b } came to { $difference } more than plots with { $a } (likely between { $low } and { $high }). A difference this large would be rare if { $b } did nothing ({ $rarity }).
trial-less = Plots with { $b } came to { $difference } less than plots with { $a } (likely between { $low } and { $high }). A difference this large would be rare if { $b } did nothing ({ $rarity }).
trial-yellower = Plots with { $b } yellowed more than plots with { $a }, by { $difference } points (likely between { $low } and { $high }). A difference this large would be rare if { $b } did nothing ({ $rarity }).
trial-greener = Plots with { $b } yellowed less than plots with { $a }, by { $difference } points (likely between { $low } and { $high }). A difference this large would be rare if { $b } did nothing ({ $rarity }).
trial-seen-more = In these plots { $b } came to { $difference } more than { $a }; that is what was seen, not what was shown.
trial-seen-less = In these plots { $b } came to { $difference } less than { $a }; that is what was seen, not what was shown.
trial-not-shown = This trial did not show a difference between { $b } and { $a }. It could have missed one smaller than about { $missed }. That is not proof that they are the same.
trial-not-shown-yellow = This trial did not show a difference between { $b } and { $a }. It could have missed one smaller than about { $missed } points. That is not proof that { $b } does no harm.
trial-none-shown = This trial did not show a difference between any two of them. It could have missed one smaller than about { $missed }. That is not proof that they are the same.
trial-could-miss = A trial of this size could have missed differences smaller than about { $missed }.
trial-could-miss-yellow = A trial of this size could have missed differences smaller than about { $missed } points.
trial-within-margin = Any difference between { $b } and { $a } is smaller than the { $margin } you said matter.
trial-too-small = With { $count } no result can be convincing: nothing that could come up would be rarer than { $rarity } by chance alone. Treat this as a look, not a test.
trial-thin = { $count } are few: { $asked } or more are advised.
trial-disagree-not = By the table of variances the treatments differ ({ $table } by chance alone), by reordering the plots as they were drawn it is less rare ({ $reordering }). The reordering counts: this is not shown.
trial-disagree-shown = By the table of variances a difference is not shown ({ $table } by chance alone), by reordering the plots as they were drawn it is rarer ({ $reordering }). The reordering counts: the treatments differ somewhere, and the intervals do not say where.
trial-interaction = What one factor does depends on the other: read the means of the single combinations, not those of each factor alone.
trial-combination = { $main } with { $sub } { $mean } ({ $plots })
trial-combinations = Means of the combinations: { $means }.
trial-drives = One plot ({ $plot }) drives this result; look at it before you decide.
trial-odd = One plot ({ $plot }) fits badly with the others; look at it again.
trial-lost = { $lost } of { $planned } plots have no value; the others were fitted as they stand.
trial-field-and-season = Holds for this field and season.
trial-cause = Yellower fits a shortage of nitrogen; confirm it with a leaf or soil test.
trial-demonstration = With one of each this is a demonstration, not a trial: describe what you see, and judge nothing by it.
trial-too-many-lost = { $lost } of { $planned } plots have no value, more than a quarter: no verdict.
trial-level-lost = No plot of { $treatment } is left: no verdict.
trial-not-tied = The plots that are left do not tie all treatments to each other: no verdict.
trial-no-spread = Plots of the same treatment do not differ at all once blocks are allowed for: no verdict. Look whether values were copied, or the scale is too coarse.
trial-one-in = about 1 in { $n }
trial-one-in-million = less than 1 in a million
trial-not-rare = more often than not
trial-count-pairs = { $count ->
    [one] { $number } pair
   *[other] { $number } pairs
}
trial-count-blocks = { $count ->
    [one] { $number } block
   *[other] { $number } blocks
}
trial-count-plots = { $count ->
    [one] { $number } plot of a treatment
   *[other] { $number } plots of a treatment
}

## Tables of a finished trial
trial-treatment = Treatment
trial-plots = Plots
trial-mean = Mean
trial-likely = Likely between
trial-letters = Letter
trial-letters-about = Two means that share a letter are not shown to differ (all pairs together).
trial-source = Between
trial-degrees = Degrees of freedom
trial-squares = Sum of squares
trial-mean-square = Mean square
trial-ratio = Ratio to error
trial-rarity = By chance alone
trial-line-error = plots (error)
trial-line-error-main = main plots (error)
trial-line-error-sub = columns (error)
trial-line-error-crossing = crossings (error)
trial-line-total = all plots
trial-comparisons = Differences
trial-comparison = { $b } less { $a }
trial-difference = Difference
trial-by = By
trial-method-dunnett = all against the check (Dunnett)
trial-method-tukey = all pairs (Tukey)
trial-method-lsd = named beforehand
trial-method-contrast = contrast
trial-spread = Plots of one treatment differ by { $variation } of the mean (error degrees of freedom: { $degrees }).
trial-reordered-exact = Reordering the plots as they were drawn, all { $arrangements } ways: { $rarity } by chance alone.
trial-reordered-drawn = Reordering the plots as they were drawn, { $arrangements } of many ways: { $rarity } by chance alone.
trial-ranks = On ranks alone ({ $test }): { $rarity } by chance alone.
trial-curves = Scores over time became one number a plot: the mean over days { $from } to { $to }.
trial-visits-drawn = { $count ->
    [one] One missed visit between two others was drawn straight.
   *[other] { $n } missed visits between two others were drawn straight.
}
trial-visits-left-out = { $count ->
    [one] One visit that not all plots had at an end was left out: plots are compared over the days they share.
   *[other] { $n } visits that not all plots had at an end were left out: plots are compared over the days they share.
}
trial-visits-apart = Plots were scored on different days and share fewer than two: the last score of each stands for it, so a difference of days is in the result. Score all plots on the same days.
trial-block-lacks = { $block } has no value for { $treatment }.

trial-of-factor = { $factor }: { $said }
trial-page-title = Side-by-side plots: { $response }
trial-dots-title = Every plot, by { $factor }
trial-dots-about = A ring is a plot, or the mean of its plots in a block; lines join the rings of a block. The thick line is the mean with its likely range.
trial-residuals-title = What the fit leaves, plot by plot
trial-residuals-about = The fuller a plot, the further its value lies from what treatment and block foretell. Neighbours that all lie high or low point to the ground, a single full one to a slip.

## What is wrong with a file of plots
trial-form = The first line names the columns, then one line a plot; a lost plot has nothing, or NA, for its value.
trial-separator = the columns of this file are not separated by commas.
trial-no-column = there is no column { $name }.
trial-columns-are = The columns are { $names }.
trial-no-rows = no plot follows the first line.
trial-too-many = more than { $most } lines of plots; a trial has fewer.
trial-empty-cell = { $name } is empty.
trial-text = { $name } is { $value }; a number is wanted.
trial-percent = { $name } is { $value }; per cent go from 0 to 100.
trial-twice = this is a second plot of the same treatment in the same block; the first is in line { $line }.
trial-twice-help = Keep one of them, or name the visits with --day. Several samples from one plot are averaged first: they are no replicates.
trial-square-twice = a treatment stands twice in one row or column; the other one is in line { $line }. A Latin square has it once.
trial-square-unequal = { $rows } rows, { $columns } columns and { $treatments } treatments; a Latin square has as many of each.
trial-one-treatment = there are fewer than two treatments; nothing can be compared.
trial-no-pairs = there are { $treatments } treatments; pairs have two.
trial-nothing = no plot has a value.
trial-curve-order = a plot has two scores of one day.
trial-curve-short = there are fewer than two days on which all plots were scored; a course over time cannot be made.
trial-needs-plot = With --day in this design, plots are told apart by a column named with --plot.
trial-needs-option = the design { $design } needs { $option }.
trial-see-help = See kerfbook trial --help.
trial-no-level = { $value } is no level of { $name }.
trial-levels-are = The levels are { $names }.
trial-bad-pair = { $value } is no pair of levels; write A:B.
trial-bad-contrast = { $value } is no contrast; write levels with weights that add up to 0, such as A=-1,B=0.5,C=0.5.

## The plan
plan-answer = { $design }, { $plots }: lay it out as drawn, walk it in order, score by plot number.
plan-plots = { $count ->
    [one] { $number } plot
   *[other] { $number } plots
}
plan-design-pairs = Side-by-side pairs
plan-design-strips = Strips
plan-design-crd = Completely randomised
plan-design-rcbd = Randomised complete blocks
plan-design-latin = Latin square
plan-design-split-plot = Split plot
plan-design-strip-plot = Strip plot
plan-seed = Seed { $seed } ({ $generator }, version { $version }). Write it down: it draws the same plan again.
plan-seed-drawn = No seed was given; this one was drawn by chance: seed = { $seed }. Write it into the file.
plan-refused = { $count ->
    [one] One earlier drawing was refused, for a reason in the field; this is the next one.
   *[other] { $n } earlier drawings were refused, for reasons in the field; this is the next one.
}
plan-demonstration = With one of each this is a demonstration, not a trial: it can be described, not judged.
plan-too-small = Nothing that could come up in a trial of this size would be rarer than { $rarity } by chance alone. Treat it as a look, or lay out more.
plan-few = { $number } replicates are few: { $asked } or more are advised.
plan-smallest = The rarest that could come up by chance alone: { $rarity }.
plan-square-few = Reordering cannot judge a square this small; its table of variances leans on the normal curve alone.
plan-detectable = Where plots of one treatment differ by { $variation }, it finds a difference of { $difference } of the mean four times in five, and can miss smaller ones.
plan-needed = To find { $difference } of the mean four times in five it would take { $replicates } blocks.
plan-needed-more = To find { $difference } of the mean four times in five it would take more than { $replicates } blocks.
plan-unequal-nitrogen = The treatments bring unequal nitrogen ({ $low } to { $high }): nobody could say whether the residue did it or the nitrogen. Top up as listed.
plan-nitrogen-unknown = What nitrogen the treatments bring is not said (nitrogen_kg_ha); bring the same in each.
plan-reference = Add a plot with { $residue } and ample nitrogen in every block: it tells nitrogen held by decay from other causes of yellowing.
plan-guard = Of every plot { $net } inside is measured, { $guard } at each side is left out.
plan-no-net = Nothing is left inside the guards: make plots wider or guard_m smaller.
plan-blind = Labels and score sheet carry plot numbers only. Whoever opens the plan or the key is no longer blind.
plan-field = Field plan
plan-plot = Plot
plan-walk = Walk
plan-block = Block
plan-treatment = Treatment
plan-key = Key
plan-top-up = Top up
plan-brings = Brings
plan-nothing = nothing
plan-written = Written: { $files }.
plan-map-title = Field plan of { $trial }
plan-map-about = { $rows } rows of plots; the number of each plot with the letter of its treatment, walked row by row, every second row backwards.
plan-start = start
plan-labels = Labels
plan-steps = Score the yellow part of the old leaves in per cent, by these steps: { $steps }. Ten plants or leaves a plot, and their mean; one person a whole block.
plan-cannot-lay-out = this design cannot be laid out: { $why }.
plan-one-treatment = it has fewer than two treatments
plan-no-plot = a treatment has no plot
plan-too-many = it has more than { $most } plots
plan-name-twice = { $name } stands twice among the treatments.
plan-square-blocks = a Latin square has as many rows as treatments; blocks is not wanted.
plan-two-factors = a design with two factors names them with main and sub.
plan-one-factor = main and sub are for split-plot and strip-plot; here the treatments are listed.
plan-pairs-two = pairs have two treatments.
plan-no-check = { $name } is none of the treatments.

trial-agreement = { $count ->
    [one] One plot was scored a second time: the two scores lie { $points } points apart.
   *[other] { $number } plots were scored a second time: the two scores lie { $points } points apart on average.
}
trial-block-shared = More than one person scored block { $block } on { $date }: what the eyes differ lies between its plots. Let one person score a whole block.

plan-in-book = In the book as entry { $entry }. No screen of the book says what a plot got before the trial is closed; whoever reads this plan scores blind no longer.
plan-plots-no-size = the plots have no size, so they cannot be places.
plan-plots-no-size-help = Give width_m and length_m of a plot, or leave --plots out.
plan-in-book-twice = the book has a trial called { $name } already.
plan-in-book-twice-help = Give this one another name, or take the other one out.
plan-needs-name = a trial in a book needs a name.
plan-needs-name-help = Write for example: name = "Chips on beans"
plan-factors-two = factors names the two factors of a split plot or a strip plot.
trial-which = the book has several trials.
trial-which-no = the book has no trial.
trial-which-help = Choose one with --name: { $names }
trial-which-none = Lay one out: kerfbook plan TRIAL.toml --book BOOK
trial-no-design = a table of plots needs --design: how they were laid out.
trial-no-response = a table of plots needs --response: the column of what was measured.
trial-book-response = { $value } is nothing that is read on plots.
trial-book-response-help = Choose among { $names }.
trial-book-option = { $option } goes with a table of plots; a book knows it from the layout.
trial-book-of = { $trial }: { $measured }
measured-yellow = yellow leaf, mean of the season, %
measured-last-yellow = yellow leaf at the last visit, %
measured-most-yellow = most yellow leaf, %
measured-yield = yield of the net plot, kg
measured-weeds = ground under weeds, %
measured-soil-moisture = water in the soil, % by volume
measured-stand = plants that stand
trial-row = Row
trial-column = Column

## An open trial
trial-open = { $trial } is still open. How far it is:
trial-open-unscored = No plot was scored yet.
trial-open-day = Day
trial-open-layer = Leaves
trial-open-scored = Scored
trial-open-missing = Passed by
trial-open-of = { $scored } of { $plots }
trial-open-lost = Lost plots: { $numbers }.
trial-open-measured = Plots on which something was measured: { $number }.
trial-open-blind = What each plot got is told when the trial is closed (trial_closed): until then whoever scores stays blind.
trial-layer-old = old
trial-layer-middle = middle
trial-layer-young = young

## A filled score sheet
scores-empty = nothing was read on any plot of this sheet.
scores-form = Each row has the plot's number, the day (2026-05-20), and what was read: yellow_pct, yield_kg, weeds_pct, soil_moisture_pct, stand, or in lost the reason why the plot is lost.
scores-unnamed-trial = the row names no trial.
scores-no-trial = there is no trial { $name } in this book.
scores-trials-are = The book has { $names }.
scores-no-layer = { $value } are no leaves that are scored.
scores-layers-are = Write { $names }.
scores-no-yes = { $value } is neither yes nor no.
scores-again-is = Write yes in again where the plot was scored a second time on purpose, else leave it empty.
scores-name-person = Name the person in the book first, or leave the rater empty.
scores-below-zero = { $name } is { $value }, which is below zero.
