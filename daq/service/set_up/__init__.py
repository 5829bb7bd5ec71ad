"""Setting up a shop from its pages: what is plugged in, and the files that are written.

`text` changes values in a commented file and nothing else; `gauge_text`, `machine_text` and
`shop_text` make the files; `folder` tries what was made with the reader of the shop's files and
puts it there whole, or not at all; `gaps` is what a gauge's file may lack. `heard` listens at the
ports that no reader holds; `learning` has a gauge learned there, with the person of `learn_talk`.
`shop_set_up` is what the pages ask. Nothing here knows a page or who may press it: rights are
`service/rights`.
"""
