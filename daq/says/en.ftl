### English. A sentence each, by its code. What stands in braces is a number, a name out of the
### shop's files, or another sentence. A sentence nobody uses, and a code without one, fail the tests.

## Several things in a row

list-more = { $before }, { $next }
list-last = { $before } and { $last }
