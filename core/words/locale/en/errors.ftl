# What is wrong with a book, and what to do about it.

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
