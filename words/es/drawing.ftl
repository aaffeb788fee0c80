# Lo que dicen los dibujos.

drawing-above-must-move = Por encima de { $x } hay que moverla
drawing-above-must-move-row = por encima de { $x } hay que moverla
drawing-above-this = por encima de esto hay que moverla
drawing-all-day = todo el día
drawing-and-conflicts-more = y { $n } conflictos más
drawing-and-days-more = y { $n } días más
drawing-and-more = y { $n } más
drawing-and-rows = y { $n } filas más
drawing-and-rows-more = Y { $n } filas más.
drawing-and-trades-more = y { $n } oficios más
drawing-bore-plates = Placas contra clavos en { $edges }: queda menos de { $plate }.
drawing-bore-said = La perforación necesaria es de { $hole }; la mayor según la tabla es de { $largest }. La pieza tiene { $depth } de peralte; quedan { $near } y { $far } de madera en los bordes, y deben conservarse { $kept }.
drawing-bore-title = { $member } con su perforación, a escala
drawing-bottom-of-strainer = fondo de la canasta
drawing-bowl-deep = tina de { $x } de hondo
drawing-cabinet-floor = piso del gabinete
drawing-calendar-title = Lo que está cortado, por día de trabajo
drawing-carries = { $name } lleva { $x }
drawing-ceiling-moved = { $width } por { $depth }, { $joists }, { $lights }, { $moved } movidas para librar una vigueta.
drawing-ceiling-said = { $width } por { $depth }, { $joists }, { $lights }.
drawing-ceiling-signs = O luz   @ movida de una vigueta   X luz reemplazada   : vigueta
drawing-ceiling-title = Cielo visto desde abajo, a escala
drawing-chance-not-known = probabilidad desconocida
drawing-counter = cubierta
drawing-counter-above-floor = cubierta { $x } sobre el piso terminado
drawing-cut-at-hole = corte en la perforación
drawing-day = día
drawing-day-conflict = Día { $day }: { $words }
drawing-day-head = Día { $day }
drawing-day-head-small = día { $day }:
drawing-day-off = día { $day }, { $words }
drawing-days-off = días { $first } a { $last }, { $words }
drawing-deep = { $x } de hondo
drawing-disposer-outlet = salida del triturador
drawing-edges = { $n ->
    [one] 1 borde
   *[other] { $n } bordes
}
drawing-fall-said = { $length } de largo, con caída de { $fall }.
drawing-fall-title = Tubo de { $from } a { $to }, extendido en línea recta
drawing-falls = baja { $x }
drawing-feet = { $x } pies
drawing-feet-inches = { $feet } y { $inches }
drawing-filled-to-chance = relleno según la probabilidad, aquí 4 de 10
drawing-finished-floor = piso terminado
drawing-fixture-hangs = La luz que se reemplaza cuelga a { $left } de la izquierda y { $up } hacia arriba.
drawing-fixture-replaced = luz reemplazada
drawing-foot = { $x } pie
drawing-framing-behind = estructura detrás
drawing-from-left-up = { $sign } { $left } desde la izquierda, { $up } hacia arriba, corte de { $hole }
drawing-give-or-take = { $x }, más o menos { $tolerance }
drawing-heights = Salida de desagüe como se halló, { $stub }; la más alta que desagua, { $highest }; todo sobre el piso terminado.
drawing-heights-lowest = Salida de desagüe como se halló, { $stub }; la más alta que desagua, { $highest }; la más baja, { $lowest }; todo sobre el piso terminado.
drawing-held-against = Comparado con: { $limits }.
drawing-highest-drains = La más alta que desagua
drawing-highest-drains-row = la más alta que desagua { $x }
drawing-highest-drains-small = la más alta que desagua
drawing-hole-needed = perforación necesaria
drawing-hole-needed-row = perforación necesaria { $x }
drawing-holes = { $n ->
    [one] 1 perforación
   *[other] { $n } perforaciones
}
drawing-hour-am = { $x } a. m.
drawing-hour-pm = { $x } p. m.
drawing-in-10 = { $n } de 10
drawing-in-afternoon = en la tarde
drawing-in-morning = en la mañana
drawing-inch = { $x } pulgada
drawing-inches = { $x } pulgadas
drawing-inside-bowl-deep = interior de la tina, { $x } de hondo
drawing-inside-other-deep = interior de la otra, { $x } de hondo
drawing-inside-tolerance = dentro de la tolerancia
drawing-joists = { $n ->
    [one] 1 vigueta
   *[other] { $n } viguetas
}
drawing-joists-above = viguetas arriba
drawing-joists-above-apart = viguetas arriba, cada { $x }
drawing-kept-each-edge = { $x } se conservan en cada borde
drawing-largest-table = la mayor según la tabla: { $x }
drawing-largest-table-row = mayor según la tabla { $x }
drawing-length-not-known = largo desconocido
drawing-length-run = { $length }, el tramo
drawing-light-cut-out = { $lights }, corte de { $x }
drawing-lights = { $n ->
    [one] 1 luz
   *[other] { $n } luces
}
drawing-load-said = En conjunto { $total } { $unit }: { $parts }. { $carries }.
drawing-load-title = La carga frente a lo que la lleva
drawing-lowest-cabinet = La más baja, con la trampa libre del piso del gabinete: { $x }
drawing-lowest-cabinet-row = la más baja, trampa libre del piso del gabinete
drawing-lowest-cabinet-short = la más baja, trampa libre del piso: { $x }
drawing-lowest-weir = La más baja por el límite entre salida y vertedero: { $x }
drawing-lowest-weir-row = la más baja, límite de salida a vertedero
drawing-lowest-weir-short = la más baja, salida a vertedero: { $x }
drawing-morning-short = a. m.
drawing-moved-cut-out = { $n } movidas para librar una vigueta, corte de { $x }
drawing-moved-off-joist = { $n } movidas para librar una vigueta
drawing-nail-plate = placa contra clavos: menos de { $x } de madera
drawing-nail-plate-row = ! placa contra clavos: menos de { $x } de madera
drawing-nail-plates = placas contra clavos: menos de { $x } de madera
drawing-name-figure = { $name } { $x }
drawing-name-is = { $name }: { $x }
drawing-never-off = { $name }: nunca se corta.
drawing-no-load-known = no se conoce ninguna carga
drawing-noon = mediodía
drawing-not-known = desconocido
drawing-off-day-is = cortado; un día es de { $from } a { $to }
drawing-off-signs = # cortado, + probable, - quizás; un día es de { $from } a { $to }
drawing-over-9-in-10 = más de 9 de 10
drawing-part-planned = { $name } { $x } (previsto)
drawing-patches = { $n ->
    [one] 1 parche
   *[other] { $n } parches
}
drawing-patches-area = { $patches }, { $area } pies²
drawing-patches-dotted = { $patches } (punteado), { $area } pies²
drawing-planned = { $name }, previsto
drawing-afternoon-short = p. m.
drawing-reliability-across = pronóstico, de cada 10
drawing-reliability-bin = { $from } a { $to } de 10
drawing-reliability-bin-off = Pronóstico de { $bin }: hallados { $count }, y la banda de { $low } a { $high } de 10 deja fuera el pronóstico.
drawing-reliability-bin-said = Pronóstico de { $bin }: hallados { $count }, banda de { $low } a { $high } de 10.
drawing-reliability-bin-small = Pronóstico de { $bin }: hallados { $count }.
drawing-reliability-count = { $found } de { $n }
drawing-reliability-counts = hallados : resultados, por pronóstico; los hallados, rayados
drawing-reliability-line = tan a menudo como se pronosticó
drawing-reliability-none = Todavía no hay ningún resultado.
drawing-reliability-signs = : pronóstico  o hallado  [ ] banda  @ ambos  X banda sin pronóstico
drawing-reliability-title = Cuántas veces se cumplieron los pronósticos
drawing-reliability-title-small = Resultados por pronóstico, muy pocos para una curva
drawing-reliability-up = hallado, de cada 10, con una banda de 95 de cada 100
drawing-rest-disposer = Cubierta { $counter }, salida del triturador { $outlet }, brazo de la trampa { $arm } en la trampa.
drawing-rest-strainer = Cubierta { $counter }, canasta { $outlet }, brazo de la trampa { $arm } en la trampa.
drawing-row-off = { $name }, cortes: { $days }.
drawing-run = tramo { $x }
drawing-signs-found-proposed = (X) como se halló ( ) propuesta
drawing-sink-title = Fregadero, trampa y salida de desagüe, vista de frente a escala
drawing-strainer = canasta
drawing-stub-as-found = Salida de desagüe como se halló
drawing-stub-as-found-row = salida de desagüe como se halló { $x }
drawing-stub-as-found-small = salida de desagüe como se halló
drawing-stub-gap = salida de desagüe { $gap }
drawing-stub-not-known = No se sabe cómo queda la salida de desagüe.
drawing-stub-to-spare = La salida de desagüe tiene { $x } de margen.
drawing-stub-to-spare-near = La salida de desagüe tiene { $x } de margen, lo que cae dentro de la tolerancia.
drawing-stub-too-high = La salida de desagüe está { $x } demasiado alta.
drawing-stub-too-high-near = La salida de desagüe está { $x } demasiado alta, lo que cae dentro de la tolerancia.
drawing-stub-too-low = La salida de desagüe está { $x } demasiado baja.
drawing-thick = { $x } de grueso
drawing-to-scale = { $name }, a escala
drawing-to-spare = { $x } de margen
drawing-together = en conjunto { $total }
drawing-together-planned = en conjunto { $total }: { $there } ahora, { $planned } previsto
drawing-too-high = { $x } demasiado alta
drawing-too-low = { $x } demasiado baja
drawing-trade-holes = { $trade }: { $holes }, { $area } pies²
drawing-trade-holes-plain = { $trade }: { $holes }, { $area } pies²
drawing-trap = trampa
drawing-under-1-in-10 = menos de 1 de 10
drawing-under-sixteenth = ±menos de 1/16″
drawing-under-sixteenth-words = menos de 1/16
drawing-unnamed = sin nombre
drawing-wall-patches = { $patches }, en conjunto { $area } pies cuadrados.
drawing-wall-said = { $width } de ancho y { $height } de alto, con { $holes }.
drawing-wall-said-trades = { $width } de ancho y { $height } de alto, con { $holes }: { $trades }.
drawing-wall-title = { $name }, vista de frente a escala
drawing-wide-by = { $width } por { $depth }
drawing-wide-high = { $width } de ancho, { $height } de alto
drawing-with-note = { $x }, { $note }
drawing-without-tag = { $holes } sin su marca aquí
drawing-wood-left = madera restante { $near } y { $far }
drawing-working-days = Días de trabajo 1 a { $days }.
