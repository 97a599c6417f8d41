# Places and entries given to other programs, and taken from them.

export-unknown-ending = the ending of { $file } names no format.
export-entries-csv = entries are written as a sheet: give a file that ends in .csv.
export-places = { $count } places are in { $file }.
export-entries = { $count } entries are in { $file }.
export-without = { $count } of them have no outline on the earth and are there with their figures.
export-without-wkt = { $count } of them have no outline on the earth; this format holds nothing else of them.

import-written = { $count } places are in the book.
import-tried = Tried only: { $count } places would go in. The book is as it was.
import-passed-over = { $count } features without an outline, a walk or an area were passed over.
import-place = { $name }: { $what }
import-place-number = Place { $number } of the file: { $what }
import-crosses = the outline crosses itself. With lobes against each other it has { $signed } m2; the ground it goes round is { $covered } m2.
import-crosses-remedy = Check the order of its points, or take the ground it goes round with --repair.
import-no-name = this place has no name.
import-no-name-remedy = Give one with --name; several are numbered.
import-name = this name does not fit into the book.
import-twice = another place of this file has the same name.
import-twice-remedy = Give each a name of its own.
import-in-book = the book has a place of this name.
import-in-book-remedy = Give it another name in the file, or measure the place of the book anew with --anew.
import-twice-in-book = the book has more than one place of this name.
import-kind = { $value } is no kind of place.
import-figure = { $key } cannot be { $value }.
import-too-large = it is larger than a place can be (100 km2, or further than 2,000 km across).
