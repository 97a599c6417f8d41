# Volumen de montones y cargas.

pile-answer = Este montón tiene unos { $range }.
pile-answer-load = Esta carga tiene unos { $range }.
pile-title = Volumen
pile-middle = Probable
pile-low = Por lo menos
pile-high = Como mucho
pile-within = Se toma cada medida como buena dentro de { $share }.
pile-shape-decides = El margen vale solo para esta forma. Ningún montón la tiene del todo: donde importe, mida una carga.
pile-section-open = No se da la sección: el margen va de lados rectos (lo menos) a lados verticales (lo más), con una parábola en medio.
pile-steep = Unos lados a { $angle }° son más empinados de lo que se ha visto en restos de madera ({ $most }°): revise la altura y el ancho.
pile-end-area = Solo con las dos secciones de los extremos: es demasiado donde el montón se estrecha. Dé también middle_m2.
pile-rating = La capacidad colmada no mide lo que se lleva: mida una carga y dé fill_factor.

## What is wrong with a file of a shape
pile-unused-key = { $shape } no se mide con { $key }.
pile-its-keys = Sus claves son { $keys }.
pile-shorter-than-wide = length_m es { $length }, menos que los { $width } m de ancho: con extremos redondos no queda cresta.
pile-ends-open = Dé ridge_m, o ends = "open" si el montón está cortado recto.
pile-cannot-be = estas medidas no forman un montón: { $why }
