# What the acts cannot do: what, and what to do about it.

error-unknown-material = The material "{ $material }" is not in the table. Nearest: { $nearest }.
error-refused = "{ $material }" is refused for every growing place.
error-not-residue = "{ $material }" is no residue that decays. Give it as a feed.
error-nothing-there = The amount of "{ $material }" makes no layer on this place. Give an amount above zero.
error-unknown-feed = The feed "{ $feed }" is not in the table. Nearest: { $nearest }.
error-no-load = No load is described. Add one with a date, a material and an amount.
error-missing = { $key } is missing: { $why }.
error-wrong-measure = "{ $feed }" is stated in the wrong measure: liquids by volume, solids by mass, either by its nitrogen.
error-soil = This soil cannot be: { $why }.
error-model = The nitrogen model cannot run this: { $why }.
error-book-not-found = There is no book at { $path }. Check the name, or make one with the demo.
error-book-not-ours = { $path } is no book of this program. Nothing was changed.
error-book-damaged = The book { $path } is damaged. It was set aside as { $aside }; what verifies was kept.
error-book-missing-entries = Missing: device { $device }, entries { $from } to { $to }.
error-book-read-only = { $path } cannot be written. Check the folder's permissions. Nothing was changed.
error-book-not-enrolled = This computer is not enrolled in the book: it can be read, not written.
error-book-full = The disk or the book is full. Nothing of this entry was written.
error-book-newer = The book was written by a later version of this program. It can be read; to write, use that version.
error-no-such-entry = There is no entry { $entry } in this book.
error-no-such-field = Entries of the kind "{ $kind }" have no field { $field }. They have { $fields }.
error-field-value = { $field } cannot be { $value }: { $why }.
error-other = This could not be done: { $why }.
