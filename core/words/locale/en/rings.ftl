# Ground under tree rings.

rings-answer = Mulch { $net } under { $trees }.
rings-answer-bare = Mulch { $net } under { $trees }; { $bare } stays bare at the trunks.
rings-nothing = Nothing is left to mulch under { $trees }: the gaps at the trunks take all of it.
rings-overlap = Counted tree by tree it would be { $sum }, { $share } more: rings overlap.
rings-trees = { $count ->
    [one] { $trees } tree
   *[other] { $trees } trees
}
rings-title = Ground
rings-union = Within the drip lines
rings-bare = Bare at the trunks
rings-net = To mulch
rings-sum = Tree by tree

## What is wrong with a file of rings
rings-form = The first line names the columns: x_m,y_m,radius_m and, if known, gap_m. Then one line a tree, metres with a point.
rings-heading = the first line is { $text }.
rings-separator = the columns of this file are not separated by commas.
rings-unknown-column = there is no column { $name } in such a file.
rings-missing-column = the column { $name } is missing.
rings-column-twice = the column { $name } stands twice.
rings-none = no tree follows the first line.
rings-empty-cell = { $name } is empty.
rings-no-gap = A tree without a gap has 0, or nothing, under gap_m.
rings-too-far = { $name } is { $value }; a place within 100 000 km of the origin is wanted.
rings-own-origin = Count x_m and y_m from a corner of the orchard.
rings-no-radius = { $name } is { $value }; it must be more than 0 and at most 1 000 000 m.
rings-no-gap-size = { $name } is { $value }; it must be from 0 to 1 000 000 m.
rings-more = There may be more like this further down.
