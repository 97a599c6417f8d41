# Why an act was not done.

act-unknown-material = the table has no material { $name }.
act-refused = { $name } goes on no place where something grows.
act-not-residue = { $name } is no residue that decays.
act-not-residue-remedy = Give it under [[feed]].
act-nothing-there = the amount of { $name } makes no layer on this place.
act-nothing-there-remedy = Give an amount above zero and the area of the place.
act-unknown-feed = the table has no feed { $name }.
act-wrong-measure = { $name } is stated in the wrong measure.
act-wrong-measure-remedy = Liquids go by volume_l, solids by amount_kg, either by nitrogen_kg_ha.
act-no-load = no load is described.
act-no-load-remedy = Add a [[put_down]] with a date, a material and an amount.
act-nothing-happens = nothing happens on this place.
act-missing = { $key } is missing.
act-missing-remedy = It is needed here: { $why }
act-soil = the soil cannot be: { $why }
act-model = the nitrogen model cannot run this: { $why }
act-near = Was one of these meant: { $names }?
