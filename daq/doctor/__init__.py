"""What `headsweep doctor` finds out: is this computer, and what hangs on it, fit for the job?

Here live the looks (`looks`, a file each), what they are told of the place (`Patient`), what each
of them gives (`Diagnosis`), and the one call that does them all (`examine`). Codes and numbers
only: words are made where they are shown. A look reads and alters nothing, takes its roots from
the patient, and knows no other look.
"""
