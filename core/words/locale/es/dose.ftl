# Cuánto es, y cuánto nitrógeno toma de una vez.

dose-title = Cuánto es
dose-dry = Seco
dose-wet = Tal como está
dose-volume = Volumen suelto
dose-depth = Grosor de la capa
dose-depth-fingers = { $depth }, más o menos { $fingers }
dose-loads = Viajes
dose-area = Sitio
dose-per-area = Sobre la tierra, seco
dose-quick = Nitrógeno que tomará, más o menos
dose-quick-sentence = Enterrado, al pudrirse toma aquí alrededor de { $middle } (de { $low } a { $high }).
dose-quick-about = Una respuesta rápida, solo por la carga. La comparación tiene en cuenta la tierra, el tiempo y el cultivo.
dose-sources = Lo que traería ese nitrógeno
dose-source = Abono
dose-source-amount = Cantidad
dose-source-limit = Límite
dose-source-within = cabe de una vez
dose-source-over = pasa del límite: como mucho { $most } de una vez
dose-most = Lo más que admite este sitio
dose-most-sentence = Enterrado y con un abono de { $limit } como mucho, este sitio admite a lo sumo { $most } en seco: { $containers }.
dose-more-than-most = La carga es más que eso. Use el resto en un camino o de acolchado, o compóstelo primero.
