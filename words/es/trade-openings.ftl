# Aberturas y parches, la regla del plomo, deseos.
trade-wish-average = { $chance } × { $later } = { $average }: { $words }
trade-1-standing-alone-unless = 1, aislada si no se dice otra cosa
trade-added-patch-area-offcuts = Se agrega al área de los parches por recortes
trade-all-now = Todo, hoy
trade-all-sum-later = Todo lo que tiene suma para después
trade-all-sum-later-later = Todo lo que tiene suma para después, después
trade-all-sum-later-now = Todo lo que tiene suma para después, hoy
trade-any-year = cualquier año
trade-basis = base: { $basis }
trade-basis-common-practice = práctica común
trade-black-floor-adhesive = adhesivo negro de piso
trade-bottom-hole = borde inferior del hueco
trade-break-even-chance = { $id }, probabilidad de equilibrio
trade-break-even-leaves-out = El equilibrio no cuenta intereses, la molestia de volver a abrir, ni lo que cuesta la cosa terminada.
trade-brick-mortar = ladrillo y mortero
trade-building-counts-facility-written = El edificio cuenta como instalación (facility): aviso escrito y reglas de trabajo desde { $pipe } pies de tubo, { $other } pies² o { $off } pies³ de material con asbesto; las aberturas toman { $total } de superficie en total.
trade-built = construida en { $y }
trade-built-beyond-minor-repair = Construida en { $year }, y { $reasons }: más allá de una reparación menor sea cual sea el área, así que se aplican las prácticas de trabajo de la regla.
trade-built-cannot-said-whether = Construida en { $year }: no se puede decir si es una reparación menor antes de saber más.
trade-built-chance-rules-work = Construida en { $year }: { $parts }; probabilidad de que se apliquen las prácticas de trabajo de la regla: { $chance }.
trade-built-lead-rule-names = Construida en { $year }: la regla del plomo nombra casas construidas antes de { $before }.
trade-built-not-before-within = Construida en { $year }, no antes de { $before }: dentro de los años que la regla del plomo deja fuera. No se descartan partes más viejas traídas a la casa.
trade-cannot-say-catalog-holds = no se puede decir: el catálogo no tiene suma
trade-ceiling-tile = loseta de cielo raso
trade-ceiling-wall-texture = textura de cielo raso o pared
trade-cement-board-siding = tablero de cemento y revestimiento exterior
trade-certified-persons-test-below = Una prueba de una persona certificada por debajo de { $mg } mg/cm² y de { $percent } por ciento en peso saca un componente de la regla; mirarlo no.
trade-certified-persons-test-painted = Una prueba de una persona certificada de las superficies pintadas antes de la obra, en renglón propio del precio.
trade-certified-persons-test-surface = Una prueba de una persona certificada de la superficie antes de la obra, en renglón propio del precio.
trade-chance-lead-rules-work = { $area }; probabilidad de que se apliquen las prácticas de trabajo de la regla del plomo: { $chance }.
trade-chance-wish = probabilidad de un deseo
trade-check-how-room-surface = revise cómo se escriben cuarto, superficie y plano, o deje fuera su renglón
trade-check-size-plane-where = revise el tamaño del plano y dónde queda el hueco
trade-concrete-poured = concreto
trade-concrete-block = bloque de concreto
trade-corner-corner-2 = de esquina a esquina: { $whole } = { $area }
trade-corner-strips = { $name }, tiras de esquina
trade-costs-now-later-low = Costos hoy y después, bajo y alto
trade-cutting-grinding = Cortar o esmerilar { $dusty }
trade-cutting-grinding-tile-masonry = Cortar o esmerilar loseta, mampostería, piedra, yeso o fibrocemento, si lo hay,
trade-demolition-painted-surface-cut = demolición de la superficie pintada por el recorte
trade-described-house-none-lead = Según lo descrito, la casa no es de las que nombra la regla del plomo: vivienda para personas mayores o con discapacidad, o sin recámara, y sin niño menor de 6. Guarde por escrito la palabra del dueño.
trade-difference = { $what }, diferencia
trade-does-child-under-6 = ¿Vive ahí un niño menor de 6, o se espera uno?
trade-does-count-demolition-painted = ¿Cuenta como demolición de una superficie pintada?
trade-duct-insulation-tape = aislamiento y cinta de ductos
trade-dwelling-units = viviendas
trade-epa-reads-demolition-destroying = La EPA entiende demolición como destruir un componente pintado: cuente un recorte en una pared pintada como demolición, por pequeño que sea, a menos que un renovador certificado diga otra cosa.
trade-farthest-hole-proposed-moved = Lo más que se propone mover un hueco a lo largo de su plano
trade-finishing = { $name }, acabado
trade-finishing-cannot-said-without = { $name }: el acabado no se puede decir sin el ancho y el alto del plano.
trade-finishing-priced-nearest-corner = El acabado se cotiza hasta la esquina o corte más próximo, una textura en todo el plano
trade-firms-own = propio de la empresa
trade-floor-sheathing = tablero de piso
trade-for = Para { $trade }
trade-framing-spacing = distancia del armazón
trade-framing-spacing-2 = distancia del armazón, { $name }
trade-ft-3 = { $o } pies² { $o2 }
trade-ft-4 = { $area } pies²
trade-ft-corner-ceiling-line = { $x } pies de esquina o línea de cielo raso encintados de nuevo
trade-ft-less-painted-surface = { $less } pies² menos de superficie pintada { $place } en un solo trabajo de { $days } días la llevaría a { $less2 } pies².
trade-ft-painted-surface = { $sigma } pies² de superficie pintada, { $name }
trade-ft-painted-surface-table = { $total } pies² de superficie pintada { $place }, { $word } el valor de tabla de { $limit } pies²
trade-give-once = délo una vez
trade-give-one-spacing-one = dé una sola distancia y un solo primer montante para todos los huecos de un plano, o nombre dos planos
trade-give-size-once = dé su tamaño una vez
trade-has-no-hole = no tiene hueco
trade-has-rows-different-framing = tiene renglones con armazón distinto
trade-have-these-tested-before = Haga probar estos antes de cortarlos, sea cual sea el año; también en material posterior se ha hallado asbesto: { $list }.
trade-height-2 = altura
trade-height-hole = altura del hueco
trade-hole-2 = { $what } del hueco { $i }
trade-hole-3 = { $name }, hueco { $n }, { $trade }
trade-hole-further-spares-bay = { $name }, hueco { $hole }: { $by } más a la { $way } ahorra un espacio entre centros, { $saved } de parche, si el oficio puede tenerlo ahí.
trade-holes-holes-patches-if = huecos: { $holes }; { $holearea } de huecos; { $patcharea } de parches si fueran los únicos
trade-house-built-painted-surface = En una casa construida en { $year }, superficie pintada alterada, { $name }: { $total }, { $rule } el valor de tabla de { $rule2 }
trade-house-up-four-units = Una casa aislada de hasta cuatro viviendas no es instalación (facility) según la regla federal de aviso; los estados y las reglas de los trabajadores pueden ser más estrictos.
trade-housing-elderly-disabled-people = ¿Es vivienda para personas mayores o con discapacidad, o sin recámara?
trade-how-far-apart-framing = ¿A qué distancia están los centros del armazón?
trade-how-high = ¿Qué altura tiene?
trade-how-high-bottom = ¿A qué altura está su borde inferior?
trade-how-high-plane = ¿Qué altura tiene el plano?
trade-how-large-planes = ¿Qué tamaño tienen los planos?
trade-how-likely-wanted-within = ¿Qué tan probable es que se quiera en cinco años, de 0 a 1?
trade-how-many-dwelling-units = ¿Cuántas viviendas tiene el edificio?
trade-how-much-outside-30 = ¿Cuánto por fuera en los 30 días anteriores?
trade-how-much-painted-surface = ¿Cuánta superficie pintada se altera en este cuarto?
trade-how-much-painted-surface-2 = ¿Cuánta superficie pintada?
trade-how-much-painted-surface-disturbed = ¿Cuánta superficie pintada se altera por fuera?
trade-how-much-same-room = ¿Cuánto en el mismo cuarto en los 30 días anteriores?
trade-how-wide-2 = ¿Qué ancho tiene?
trade-how-wide-plane = ¿Qué ancho tiene el plano?
trade-if-x-left-end = Si x se mide desde el extremo izquierdo: ¿dónde está el primer centro del armazón?
trade-inside = por dentro
trade-inside-break-even-range = dentro del margen de equilibrio: los márgenes no deciden
trade-joint-compound-wallboard = pasta para juntas en tablaroca
trade-judgment = criterio
trade-later = { $id }, después
trade-later-average = { $id }, después en promedio
trade-later-now-farthest-ends = después − hoy, extremos más lejanos: { $shown }
trade-lead-rule = Regla del plomo
trade-left-3 = izquierda
trade-left-edge = borde izquierdo
trade-left-edge-hole = borde izquierdo del hueco
trade-loose-fill-insulation = aislamiento suelto
trade-lows-highs-added = bajos y altos sumados: { $shown }
trade-makes-silica-dust-water = { $what } produce polvo de sílice: agua o aspiradora y un respirador como los nombra la Table 1 para la herramienta (cerca de { $tools } herramientas; el acabado de tablaroca no está en ella), o si no, aire medido por debajo de { $pel } µg/m³, con obligaciones desde { $action } µg/m³.
trade-more-than-certain = { $p }, más que seguro (imposible)
trade-n-sheets-of = { $n ->
    [one] 1 hoja de { $what }, 4 × 8
   *[other] { $n } hojas de { $what }, 4 × 8
 }
trade-nearest-corner-break-144-2 = hasta la esquina o corte más próximo: { $wide } × { $height } ÷ 144 = { $area }
trade-no-area-small-enough = { $area }; { $why }, así que ningún área es lo bastante pequeña y se aplican las prácticas de trabajo de la regla del plomo.
trade-no-area-small-enough-2 = { $text }; { $reason }: ningún área es lo bastante pequeña
trade-nobody-can-tell-eye = Nadie puede decir a simple vista si una superficie vieja tiene plomo o asbesto. Mientras una persona calificada no la haya probado, no corte, lije ni raspe; cotice las pruebas y el trabajo protegido en renglones propios. Deciden un renovador certificado, un profesional de asbesto con licencia y la autoridad local; rigen las reglas estatales, locales y de los trabajadores, que pueden ser más estrictas. Una respuesta orientativa para el precio, no una aprobación.
trade-none-because-none-was = ninguna, porque no se dio
trade-not-three-point-estimate = { $three } no es una estimación de tres puntos; pide lo menos ≤ lo probable ≤ lo más
trade-now = { $id }, hoy
trade-now-later = hoy ÷ después: { $shown } ÷ { $shown2 } = { $low } a { $shown3 } ÷ { $shown4 } = { $high }
trade-number-holes = el número de huecos
trade-one-one-overlap = { $sum } uno por uno − { $union } que se traslapan = { $union2 }
trade-one-patch-over-holes = { $name }, un parche sobre los huecos { $names }
trade-open-flames-heat-guns = Las llamas abiertas, las pistolas de calor a alta temperatura y el lijado con máquina sin aspiradora HEPA son prácticas prohibidas (de memoria: consúltelo en 40 CFR 745.85).
trade-openings-patches = Aberturas y parches
trade-or-2 = { $before } o { $next }
trade-outside = por fuera
trade-outside-sheathing = tablero exterior
trade-over-whole-break-even = por encima de todo el margen de equilibrio: hoy cuesta menos en promedio
trade-own-arithmetic-published-values = aritmética propia sobre valores publicados
trade-painted-area = área pintada
trade-painted-area-disturbed-inside = área pintada que se altera, por dentro o por fuera
trade-painted-surface = superficie pintada { $place }
trade-painted-surface-2 = Superficie pintada { $place }
trade-painted-surface-3 = superficie pintada
trade-painted-surface-4 = Superficie pintada, { $name }
trade-painted-surface-demolished = se demuele una superficie pintada
trade-painted-surface-demolished-also = ¿Se demuele una superficie pintada, también al recortarla?
trade-patch-reaches-left-right = Un parche llega a izquierda y derecha hasta los centros del armazón; sus bordes de arriba y abajo llevan travesaños
trade-patches = { $name }, parches
trade-patches-over-painted-holes = parches sobre huecos pintados { $painted } + componentes que se quitan { $removed } + { $earlier } en los { $days } días anteriores = { $total }, a lo más { $rule }; probabilidad de que sea más: { $rule2 }
trade-patches-sentence = { $total } de parches para { $holes ->
    [one] 1 hueco
   *[other] { $holes } huecos
 } en { $planes ->
    [one] 1 plano
   *[other] { $planes } planos
 }, { $bought }. { $lead }
trade-percent = { $offcutallowance } por ciento
trade-pipe-insulation = aislamiento de tubos
trade-plane = plano
trade-plaster = yeso
trade-plus-minus-how-much = ¿Más o menos cuánto por dentro?
trade-plus-minus-how-much-outside = ¿Más o menos cuánto por fuera?
trade-practice-used-lead-rule = ¿Se usa una práctica que la regla del plomo prohíbe?
trade-practice-used-rule-prohibits = ¿Se usa una práctica que la regla prohíbe?
trade-presume-asbestos-until-test = Suponga asbesto hasta que una prueba muestre otra cosa ({ $why }), donde haya algo de esto: { $list }.
trade-prohibited-practice-used = se usa una práctica prohibida
trade-published-window-years-level = un margen de años publicado, el nivel según criterio
trade-ranges-judgment-added-end = Márgenes según criterio sumados de extremo a extremo: la suma verdadera queda muy probablemente bien adentro, y no se quiere decir una cifra única.
trade-ranges-talking-about-wishes = Márgenes para hablar de deseos, no precios: quienes viven ahí deciden lo que quieren, los oficios lo cotizan, y un plomero, electricista o instalador de gas con licencia dice si se puede dejar la instalación y cómo, según el código local. No es una aprobación.
trade-resilient-flooring = piso resiliente
trade-right = derecha
trade-right-edge = borde derecho
trade-rounded-up = { $area } × { $offcutallowance } ÷ { $sheetarea }, hacia arriba = { $n }
trade-rule-leaves-out-housing = La regla deja fuera la vivienda para personas mayores o con discapacidad y las viviendas sin recámara, pero solo donde no vive ni se espera un niño menor de 6 (lo segundo, de memoria: consúltelo). Si una casa anterior a { $year } es una de ellas, lo dice el dueño por escrito.
trade-several-buildings-site-worked = ¿Se trabaja en varios edificios del sitio bajo un mismo dueño u operador?
trade-sheets-4-8 = Hojas de { $what }, 4 × 8
trade-smaller-than-hole-reaches = es menor de lo que llega su hueco
trade-stone-engineered-stone = piedra o piedra artificial
trade-surface-painted = ¿Está pintada la superficie?
trade-test-before-cutting-joint = Probar antes de cortar: pasta para juntas, loseta de cielo raso, adhesivo de piso, aislamiento suelto, tablero de cemento
trade-texture-full-plane-2 = textura, todo el plano: { $whole } = { $area }
trade-textured = ¿Tiene textura?
trade-there-twice = está dos veces
trade-tile-bed = loseta y su cama
trade-tolerance-hole = tolerancia de un hueco
trade-tolerance-holes-place-size = tolerancia del lugar y tamaño de un hueco, donde no se dio
trade-under-whole-break-even = por debajo de todo el margen de equilibrio: después cuesta menos en promedio
trade-up-hole-144-framing = de { $x0 } a { $x1 } y { $y0 } hacia arriba: hueco { $x02 } × { $high } ÷ 144 = { $area }; al armazón de { $x03 } a { $x12 }: parche { $wide } × { $high } ÷ 144 = { $area2 }
trade-version = versión { $version }
trade-wallboard = tablaroca
trade-what-costs-later = lo que cuesta { $id } después
trade-what-costs-rough-wish = Lo que cuesta dejar la instalación de un deseo mientras la pared está abierta, contra hacerlo después.
trade-what-holes-all-trades = Lo que los huecos de todos los oficios piden en parches, hojas y acabado, y qué pintura alteran.
trade-what-may-wanted-later = ¿Qué puede quererse después?
trade-what-this-plane-called = ¿Cómo se llama este plano, por ejemplo pared del fregadero?
trade-what-was-disturbed-30 = ¿Qué se alteró en los 30 días anteriores, por cuarto?
trade-what-year-was-house = ¿En qué año se construyó la casa?
trade-where-left-edge-framing = ¿Dónde está su borde izquierdo, desde un centro del armazón o desde el extremo izquierdo?
trade-where-may-finish-stop = ¿Dónde puede terminar el acabado, desde el extremo izquierdo?
trade-where-may-finish-stop-between = ¿Dónde puede terminar el acabado entre esquinas?
trade-where-not-said-holes = { $what }, donde no se dijo (huecos: { $n })
trade-whether-painted-surface-demolished = si se demuele una superficie pintada
trade-whether-prohibited-practice-used = si se usa una práctica prohibida
trade-whether-window-replaced = si se cambia una ventana
trade-whether-work-paint-house = Si el trabajo en pintura de una casa anterior a 1978 es reparación menor según la regla federal del plomo.
trade-which-holes-does-each = ¿Qué huecos necesita cada oficio?
trade-which-material = ¿Qué material?
trade-which-old-dusty-materials = ¿Qué materiales viejos o polvosos se cortan?
trade-which-painted-components-taken = ¿Qué componentes pintados se quitan enteros, por cuarto?
trade-which-room = ¿Qué cuarto?
trade-which-rooms-window-replaced = ¿En qué cuartos se cambia una ventana?
trade-which-trade-needs = ¿Qué oficio lo necesita?
trade-which-wish-catalog = ¿Qué deseo del catálogo?
trade-whole-bays = de centro a centro completo
trade-width-hole = ancho del hueco
trade-window-replaced = ¿Se cambia una ventana?
trade-window-replaced-2 = se cambia una ventana
trade-windows-replaced = ventanas que se cambian
trade-wish = deseo
trade-wish-there-twice = el deseo «{ $id }» está dos veces
trade-wishes-later = Deseos para después
trade-wishes-no-later = { $n ->
    [one] 1 deseo
   *[other] { $n } deseos
 } con instalación mientras la pared está abierta: { $now }; lo que cuesta después no lo dice el catálogo.
trade-wishes-same-later = { $n ->
    [one] 1 deseo
   *[other] { $n } deseos
 } con instalación mientras la pared está abierta: { $now }; lo mismo después: { $later }.
trade-wishes-some-later = { $n ->
    [one] 1 deseo
   *[other] { $n } deseos
 } con instalación mientras la pared está abierta: { $now }; { $both } de ellos, { $bothnow } hoy, después: { $later }.
trade-within-days-before-ft = { $area } + { $earlier } en los { $days } días anteriores = { $total } pies², a lo más { $limit } pies²; probabilidad de que sea más: { $chance }
trade-within-up-overlaps-once = de { $x0 } a { $x1 } y de { $y0 } a { $y1 } hacia arriba: { $area }, lo traslapado una vez
trade-without-list-holes-nothing = Sin una lista de huecos no se puede decir nada.
trade-without-wish-nothing-can = Sin un deseo no se puede decir nada; el catálogo conoce { $known }.
trade-without-year-house-was = Sin el año en que se construyó la casa no se puede decir nada; mientras no se sepa, cotice la obra como si la regla se aplicara.
trade-without-year-house-was-built = Sin el año en que se construyó la casa no se puede decir nada según la regla del plomo; mientras no se sepa, cotice como si se aplicara.
trade-year-built = año de construcción
trade-year-not-known = no se sabe el año
