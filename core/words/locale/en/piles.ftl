# Volume of heaps and loads.

pile-answer = This heap holds about { $range }.
pile-answer-load = This load holds about { $range }.
pile-title = Volume
pile-middle = Likely
pile-low = At least
pile-high = At most
pile-within = Each length is taken as measured within { $share }.
pile-shape-decides = The range holds for this shape only. A heap is never quite one: where it matters, measure one load of it.
pile-section-open = No section is given, so the range goes from straight sides (least) to upright ones (most), with a parabola between.
pile-steep = Sides at { $angle }° are steeper than wood residue was seen to lie ({ $most }°): check the height and the width.
pile-end-area = From the two end sections alone: too much where the heap tapers. Give middle_m2 as well.
pile-rating = A heaped rating is no measure of what is carried: measure one load and give fill_factor.

## What is wrong with a file of a shape
pile-unused-key = a { $shape } is not measured by { $key }.
pile-its-keys = Its keys are { $keys }.
pile-shorter-than-wide = length_m is { $length }, less than the width of { $width } m: rounded ends leave no ridge.
pile-ends-open = Give ridge_m, or ends = "open" for a windrow cut off straight.
pile-cannot-be = these lengths make no heap: { $why }
