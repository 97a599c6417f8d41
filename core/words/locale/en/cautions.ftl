# Cautions. Each says the hazard, the figure where there is one, and what to do. Body and year stand beside the text.

severity-refuse = Refused
severity-warn = Warning
severity-note = Note
standing-published = published
standing-second-hand = as restated by others
standing-recomputed = computed from published figures
standing-fitted = fitted
standing-from-memory = from memory, not confirmed
standing-common-practice = common practice, no source
standing-assumption = assumption

## Taking in
caution-treated-wood = Preservative-treated wood carries arsenic, chromium, copper or creosote. Never mulch, compost or burn it. Give it back, or ask the local authority where it goes.
caution-painted-wood = Painted, varnished or stained wood can carry lead and biocides. The soil screening level for lead is { $lead }; one load can pass it. Give it back, or ask the local authority where it goes.
caution-board-dust = Dust of plywood, MDF, particle board and OSB carries resins. No authority was found that clears it for soil where food grows. Give it back, or ask the local authority where it goes.
caution-demolition-wood = Construction and demolition wood cannot be sorted by eye: treated, painted and glued pieces are among it. Give it back, or ask the local authority where it goes.
caution-weedkillers-known = Hay, straw or grass sprayed with aminopyralid, clopyralid or picloram harms beans, peas, potatoes and tomatoes, even after animals and compost. Give it back, or let it go to pasture that is never dug.
caution-treatment-unknown = Nobody knows whether treated, painted or glued wood is in it. Ask where it comes from, look through a barrow of it, and keep it off ground that grows food until you know.
caution-black-walnut = Black walnut holds juglone, which harms tomatoes, potatoes, peppers, apples and others. Leave it in a heap for { $months } at least, { $year } for roots and fresh wood, and try it on a tomato seedling first.
caution-walnut-horses = Shavings with fresh black walnut lame horses. Keep it out of stables, and away from horses for { $months } and more.
caution-poisonous-to-stock = Chips of yew, oleander, laurel or robinia poison animals. Put them only where no animal can reach, and ask a vet if one has eaten some.
caution-floated-logs-salt = Logs floated in the sea carry salt. Leach it with rain or water and test it, or refuse it.
caution-diseased-wood = Wood of diseased trees can carry the disease. Keep it away from trees of the same kind, and ask a licensed adviser which.
caution-quarantine-wood = Bark and chips may not leave areas under plant quarantine. Ask the plant health authority before taking it in.
caution-waste-permit = Taking in wood waste from elsewhere may need a permit or a registration. Ask the local authority.
caution-bedding-medicines = Stable bedding can carry wormers and other medicines. Ask the stable what was given, and compost it first.
caution-persistent-weedkillers = Aminopyralid, clopyralid and picloram pass through animals and compost and harm beans, peas, potatoes and tomatoes. Ask where the hay or straw came from, and grow peas in a sample for { $low } to { $weeks } before use.
caution-pallet-fumigant = Pallets stamped MB were fumigated with methyl bromide, and nobody knows what was spilled on any pallet. Take only clean ones whose stamp says HT.
caution-sour-mulch = If it smells of vinegar, ammonia or silage, it is sour: pH { $ph_low } to { $ph_high } was measured, and it burns plants. Spread it thin in the air for { $hours_low } to { $hours_high } before use.
caution-fresh-green-wood = Fresh green wood can hold back young roots. Let it lie, or keep it off seedlings.
caution-unfinished-compost = Compost above a C:N of { $ratio } can still hold nitrogen; below { $gives } it gives some. Let it go on, or feed as for fresh wood.
caution-cocoa-shell-dogs = Cocoa shell poisons dogs. Do not put it where a dog can eat it.
caution-coffee-grounds = Raw coffee grounds above { $percent } of a mix hold seedlings back. Compost them, or use less.

## Handling
caution-wood-dust = Breathing wood dust harms lungs and nose. Limits at work in the USA: OSHA { $osha_total } in all and { $osha_respirable } fine dust, NIOSH { $niosh }, ACGIH { $acgih }; other countries have their own. Damp it, stand upwind, wear a mask.
caution-wood-dust-cancer = Wood dust causes cancer of the nose in people (Group 1). Keep dust out of the air and out of your lungs.
caution-redcedar-dust = Dust of western redcedar brings on asthma; the limit is { $acgih }. Whoever reacts to it stays away from it.
caution-dust-explosion = Fine dry dust in the air explodes. No flame or spark near it, and never blow down a shed.
caution-legionella = Compost and mulch can carry Legionella longbeachae. Damp it down, wear gloves and a mask, wash your hands, and see a doctor with a cough or fever.
caution-aspergillus-spores = Turning old damp chips sets mould spores free. Stand upwind, wear a mask; who has weak lungs stays away.
caution-trailer-overload = Wet residue is heavy, up to { $density }. Weigh a bucket before you fill a trailer, and keep to its plate.
caution-chipper = A chipper pulls in what it catches. No loose clothing, no gloves with cuffs, never alone, and never reach in.

## Keeping in a heap
caution-heap-fire = Stored heaps heat up and can burn. Measure inside: watch it above { $watch }; above { $act } call the fire service and do not open the heap.
caution-heap-size = The model fire code allows heaps up to { $height } high, { $width } wide and { $length } long. Ask the local fire authority.
caution-fire-amber = The pile is between { $low } and { $high } inside, or it is dry and hot. Read it every day, water dry pockets, and keep it low.
caution-fire-red = The pile is hotter than { $watch }. Read it several times a day, water it from outside, keep machines and other heaps away, and have the fire service's number at hand; above { $act } call it.
caution-fire-stop = The pile is hotter than { $act }, or it smokes. Keep away, call the fire service, and do not open the pile.
caution-smouldering-pile = Never open a pile that may smoulder without the fire service there: opening feeds it air.
caution-static-cover = A pile that is not turned stays cool outside. Cover it with { $cover } of finished compost or chips, so that all of it heats.
caution-pile-run-off = Water that runs from a pile carries germs and nitrogen. Keep it away from wells, ditches and streams, and its floor { $above } above the highest ground water.
caution-by-products-authority = Manure, food and other things from animals are under rules of their own. Ask the local authority which rule holds and who checks it, before you spread or sell.
caution-heap-gases = Airless heaps give off carbon monoxide, hydrogen sulfide and methanol. Do not keep them in closed rooms, and open them from upwind.
caution-heap-collapse = Heaps and bins of sawdust collapse and bury people. Do not undercut a heap, and do not enter a bin or silo.
caution-children-on-heaps = Heaps collapse, burn inside and hide hollows. Keep children off them.

## Putting down
caution-decay-resistant-seedbed = Cedar, redwood and cypress can hold seedlings back, and decay slowly. Keep them off seedbeds.
caution-trunk-gap = Mulch against bark rots it and hides gnawing animals. Keep it { $gap } off trunks and stems.
caution-building-gap = Mulch against a wooden building keeps it damp and leads termites to it. Keep it { $gap } off.
caution-sawdust-mat = Fine sawdust mats and sheds water. Lay { $low } to { $high } of it, no more, and rake it open.
caution-mulch-depth = Deeper mulch keeps air and water from roots. Under trees and shrubs { $low } to { $high } is enough.
caution-voles-slugs = Mulch shelters voles and slugs. Keep it { $gap } off stems and look under it.
caution-frost = Mulch keeps the soil cold in spring and makes nights over it colder. Rake it aside where late frost is a danger.
caution-run-off = What drains from residue and feed harms wells, ditches and streams. Keep it well away from them, and ask the local authority how far.
caution-ask-local-rules = Local rules come before everything said here. Ask the local authority, and a licensed adviser where one is required.

## Feeding and harvest
caution-raw-manure-interval = Raw manure needs { $touching } from working in to harvest where the crop touches the soil, and { $clear } where it does not, under the US organic rule. Elsewhere ask your certifier or the local authority.
caution-raw-manure-produce = Untreated manure must not touch produce when or after it is given, under the US rule for produce. Elsewhere ask the local authority.
caution-urine-harvest = Leave { $months } between the last urine and the harvest. Ask the local authority whether urine is allowed.
caution-urine-storage = Store urine closed for { $household } where only your own household eats the crop, and for { $others } at { $heat } or more where others do. Ask the local authority whether urine is allowed.
caution-urine-food-sold = This holding sells or certifies what it grows: urine stays off until local rules were confirmed. Ask the local authority and the certifier.
caution-urine-saline = Urine carries salt. Do not give it on saline ground.
caution-not-organic = This source is not allowed in certified organic production under the US rule. Ask your certifier.
caution-dose-limit = More than { $limit } at one time is not advised; for sawdust, { $published } was advised in print. Give the rest later, or put down less.
caution-nitrate-water-us = Nitrate that is washed out reaches wells. The US limit for drinking water is { $limit } as nitrogen. Do not feed more than the plan, and keep the ground covered.
caution-nitrate-water-eu = Nitrate that is washed out reaches wells. The EU limit for drinking water is { $limit } as nitrate. Do not feed more than the plan, and keep the ground covered.
caution-manure-limit-eu = In nitrate vulnerable zones of the EU, manure may bring at most { $limit } a year, counted over the farm. Ask the local authority.
caution-ammonia-urea = Urea on the surface loses ammonia to the air. Work it in, cover it, or count on { $rain } of rain or water soon after.
caution-ammonia-manure = Manure on the surface loses ammonia to the air. Work it in or cover it within { $days }.
caution-seed-burn = Urea and ammonia near seed burn it. Keep them a hand's width away, and let a rain pass.
caution-acidifying = This source makes soil sour over the years. Measure the pH now and then, and lime to the local recommendation.
caution-animal-meal-stock = Meals of animal origin attract dogs and may not be eaten by stock. Work them in, keep animals off, and ask the local authority.
source-undated = { $body }, no year given
