# How much it is, and how much nitrogen it takes at once.

dose-title = How much it is
dose-dry = Dry
dose-wet = As it lies
dose-volume = Loose volume
dose-depth = Depth of the layer
dose-depth-fingers = { $depth }, about { $fingers }
dose-loads = Loads
dose-area = Place
dose-per-area = On the ground, dry
dose-quick = Nitrogen it will take, roughly
dose-quick-sentence = Mixed in, decay takes about { $middle } here ({ $low } to { $high }).
dose-quick-about = A quick answer from the load alone. The comparison takes soil, weather and crop into account.
dose-sources = What would bring that nitrogen
dose-source = Source
dose-source-amount = Amount
dose-source-limit = Limit
dose-source-within = within the limit of one time
dose-source-over = over the limit: at most { $most } at one time
dose-most = The most this place takes
dose-most-sentence = Dug in and fed at most { $limit }, this place takes at most { $most } dry: { $containers }.
dose-more-than-most = The load is more than that. Use the rest on a path or on top, or compost it first.
