# Líneas de la línea de comandos.

as-it-is = { $text }

## new, record, note, photo
new-done = abierta { $survey }  { $label }
record-done = { $item }  { $answer }
record-corrected = { $item }  { $answer } (corrige lo que había; se conservan las dos)
record-complaint = vuelva a mirar: { $said }
note-done = anotado  { $text }
undo-done = deshecho  { $what } { $said }
photo-taken-in = { $photo }  { $name } recibida
photo-known = { $photo }  { $name } ya estaba en este levantamiento
photo-complaint = aviso: { $said }
photo-dark = demasiado oscura para leer una cinta métrica: ¿tomarla otra vez?
photo-glare = quemada en blanco: ¿tomarla otra vez sin flash, o de espaldas a la ventana?
photo-blurred = movida o fuera de foco: ¿tomarla otra vez sin moverse?
photo-alike = se ve igual que la foto { $photo }, ya recibida
photo-clocks = tomada { $camera } según el reloj de la cámara, recibida { $device } según el de este aparato: { $apart } de diferencia. Si se acaba de tomar, uno de los relojes está mal
apart-minutes = { $n ->
    [one] 1 minuto
   *[other] { $n } minutos
}
apart-hours = { $n ->
    [one] 1 hora
   *[other] { $n } horas
}
apart-days = { $n ->
    [one] 1 día
   *[other] { $n } días
}
photo-fact-size = { $width } × { $height } píxeles, { $format }, { $bytes } bytes
photo-fact-turned = guardada como { $width } × { $height }, girada por la orientación { $orientation }
photo-fact-taken = tomada { $time }
photo-fact-taken-local = tomada { $time } según el reloj de la cámara, que no escribió la diferencia con UTC
photo-fact-no-time = no dice cuándo se tomó
photo-fact-place = dice dónde se tomó: { $latitude }, { $longitude }
photo-fact-place-hidden = dice dónde se tomó, en una forma que aquí no se lee
photo-fact-no-place = no dice dónde se tomó
photo-refused = no se recibe: { $said }
photo-copied = { $name } copiada sin ubicación, números de serie ni nada más que la imagen, la hora y su posición
photo-copied-marked =
    { $n ->
        [0] { $name } copiada pequeña y derecha; no lleva marcas
        [one] { $name } copiada pequeña y derecha con 1 marca dibujada en ella; el original queda como estaba
       *[other] { $name } copiada pequeña y derecha con { $n } marcas dibujadas en ella; el original queda como estaba
    }

## show
show-none = todavía no hay casas en este dispositivo: abra una con «underlath new NOMBRE»
show-answered = { $answered } de { $wanted } respondidas
show-photos = { $n ->
    [one] 1 foto
   *[other] { $n } fotos
}
show-p80 = 8 de cada 10 dentro de { $sum }
show-not-assessed = sin evaluar
show-not-assessed-yet = todavía sin evaluar
show-open = (abierta)
show-taken-out = Quitado, con lo que se anotó ahí
show-remarks = Observaciones
show-assessed = evaluada { $when } por { $engine } con el catálogo { $catalog }

## assess
assess-head = { $n ->
    [one] { $label }: lo desconocido, de una entrada del registro
   *[other] { $label }: lo desconocido, de { $n } entradas del registro
}
assess-no-plan = no hay trabajo previsto anotado: se cuentan las { $n } condiciones, la mayoría de las cuales este trabajo quizá nunca halle
assess-money = dinero  la mitad de las veces dentro de { $half }, 8 de cada 10 dentro de { $eight }, 9 de cada 10 dentro de { $nine } (promedio { $mean } ± { $error })
assess-days = días    la mitad de las veces dentro de { $half }, 8 de cada 10 dentro de { $eight }, 9 de cada 10 dentro de { $nine }
assess-over = probabilidad de pasar del 2, 5 y 10% del contrato: { $two }, { $five }, { $ten }
assess-in-base = aparte de eso, se toma como incluido en el precio base: { $sum }
assess-measurements = Lo que responden las medidas
assess-not-known = no se sabe: { $what }
assess-assumed = supuesto: { $what }
assess-screening = Respuestas para cotizar: decide el plomero, instalador de gas, electricista o renovador con licencia; manda el código local.
assess-conditions = Condiciones en el alcance: { $all }, de ellas { $likely } más que poco probables
assess-more = … y { $n } más en el paquete
assess-frozen = fijada como número { $number } ({ $sum })

## next
next-ask = Qué preguntar ahora ({ $n } abiertas)
next-question-at = { $item } ({ $place }: --place { $id }): { $question }
next-disagreed = se pregunta otra vez: hubo respuestas distintas
next-for-pages = se pregunta para las páginas
next-value = vale alrededor de { $value }, sobre todo para: { $conditions }
next-bears-on = influye en: { $conditions }
next-no-use = no se preguntan, porque su respuesta ya no valdría el minuto: { $items }
next-coverage = reunido { $share } de lo que pueden valer las respuestas (más o menos { $error })
next-look = Qué revisar ahora
next-photos = fotos que aún faltan: { $items }
next-nothing = nada más vale sus minutos
next-worth = { $n ->
    [one] { $label }: vale unos { $value } por un minuto ({ $how }, { $who })
   *[other] { $label }: vale unos { $value } por { $n } minutos ({ $how }, { $who })
}
next-could-change = podría cambiar: { $conditions }
look-serves = Una sola vez sirve para { $places }
next-not-while = no mientras haya: { $ask }

## Antes de salir de la casa

leave-head = Antes de salir
leave-disagree = hubo respuestas distintas (se resuelve con una corrección): { $items }
leave-implausible = fuera de lo creíble (medir otra vez): { $items }
leave-ruled-out = respondidas, aunque otras respuestas descartan la pregunta: { $items }
leave-photos = faltan fotos: { $items }
leave-clash = { $answer } no concuerda con las demás respuestas: le dejaban { $chance }. Revisar otra vez.
leave-clash-with = { $answer } no concuerda con las demás respuestas, sobre todo con { $rival }: le dejaban { $chance }. Revisar las dos otra vez.
leave-nothing = nada se contradice y nada falta
leave-worth-most = Sin preguntar y de más valor
leave-all-asked = no queda nada por preguntar

## seal, verify, receive
seal-done = sellado  { $path }
seal-holds = { $files } archivos, { $photos } fotos, { $bytes } bytes
seal-pages = para leer: { $pages }
seal-sign-name = Nombre (vacío: se sella sin firma)
seal-no-pages = sin páginas para leer: este programa se construyó sin ellas
verify-whole = { $path }: entero, y sin cambios desde que se selló
verify-sum = sha256
verify-house = casa
verify-packet = { $label } (paquete { $number })
verify-sealed = sellado
verify-by = { $when } por { $by }
verify-holds = contiene
verify-held = { $n } entradas del registro, { $photos } fotos, evaluación { $sum }
verify-household = la familia firmó { $page }: { $name }, { $when }
receive-done = { $label }  paquete { $number } recibido { $when }
receive-again = { $label }  paquete { $number } ya se había recibido { $when }

## finding, compare
finding-done = { $condition }  { $outcome }  { $cost }  anotado como número { $n }
compare-head = { $label }: pronóstico junto a hallazgo
compare-in-base = { $cost } (en el precio base)
compare-nothing-opened = todavía no se abrió nada: no hay nada que calificar ni que sumar
compare-scores = { $opened } abiertas, { $found } halladas: Brier { $brier } contra { $base } de la frecuencia de base de la época{ $skill }; puntaje logarítmico { $log } contra { $logbase }
compare-skill = , habilidad { $skill }
compare-few = pocos resultados: la suerte pesa mucho en estos puntajes
compare-within-50 = dentro de P50
compare-within-80 = entre P50 y P80
compare-within-90 = entre P80 y P90
compare-beyond = más allá de P90
compare-came-to = llegó a { $sum }
compare-took-days =
    { $n ->
        [one] tomó { $days } día
       *[other] tomó { $days } días
    }
compare-money = dinero { $actual } contra P50 { $p50 }, P80 { $p80 }, P90 { $p90 }: { $lies }; de ello { $late } hallado después de fijar el precio
compare-days = días { $actual } contra P50 { $p50 }, P80 { $p80 }, P90 { $p90 }: { $lies }
compare-none = ninguna
compare-missed = se escaparon (halladas aunque a lo más «posible»): { $list }
compare-false-alarms = falsas alarmas (no estaban aunque «probable»): { $list }
compare-not-opened = sin abrir o sin anotar, en ningún puntaje: { $n }
compare-out-of-scope = halladas aunque el pronóstico las dejó fuera del alcance: { $list }

## merge, check, rescue
merge-done = { $new } entradas recibidas, { $known } ya estaban aquí
check-whole = { $n } entradas y todas las fotos están como se anotaron
check-mended = imágenes pequeñas de { $made } fotos hechas de nuevo; { $swept } archivos sobrantes quitados
check-leftover = { $n ->
    [one] 1 archivo entre las imágenes pequeñas no es de ninguna foto; check con --mend lo quita
   *[other] { $n } archivos entre las imágenes pequeñas no son de ninguna foto; check con --mend los quita
 }
rescue-done = { $n } entradas guardadas en { $path }; los registros dañados no se tocaron

## demo
demo-invented = Una casa inventada: cada respuesta, imagen, costo y hallazgo se inventó para la demostración.
demo-walked = recorrida por { $by }: { $items } puntos, { $photos } fotos
demo-halfway = A la mitad del recorrido, las revisiones que más valían sus minutos eran
demo-sealed = sellado: { $files } archivos, { $photos } fotos, { $size } kB, sha256 { $sum }; recibido una vez aunque se mandó dos
demo-made = Hecho:
demo-packet = paquete  { $path }
demo-pages = páginas  { $path }
demo-comparison = comparación  { $path }

## calc
calc-list = Cálculos
calc-list-how = underlath calc PALABRA pregunta; underlath calc PALABRA --help lista lo que toma.
calc-needed = necesario
calc-may = se puede omitir
calc-else = si se omite, se toma { $default }
calc-rows = una fila cada vez que se da; en una fila, separado por comas:
calc-code = --code FAMILIA=LIBRO: responder esta vez según otro libro de código
calc-drawing = --drawing ARCHIVO: escribir el corte como SVG
calc-json = --json: responder en JSON
calc-ask = Una línea vacía omite una pregunta.
calc-another = ¿Otra? Una línea vacía termina las filas.
calc-spread = Dispersión, una desviación estándar: { $sigma }
calc-not-known = No se sabe
calc-one-change = Un cambio a la vez
calc-held-against = Comparado con
calc-assumed = Supuesto
calc-also = También

## words
words-none = todo texto del catálogo se dice en esta lengua
words-how = { $n ->
    [one] Un texto se dice en el inglés del catálogo. Escríbalo junto al catálogo, en { $file }, con su identificador.
   *[other] { $n } textos se dicen en el inglés del catálogo. Escríbalos junto al catálogo, en { $file }, con sus identificadores.
}

## place
show-answers = { $n ->
    [one] 1 respuesta
   *[other] { $n } respuestas
}
place-taken-out = quitado; se conservan { $answers }
place-again = está de nuevo, con { $answers }
place-not-named = (el primero, sin nombre)

## order
order-act = Orden del recorrido.
order-moved = { $place }: parada { $n }
order-listed = como lo enumera el catálogo
order-nothing-asked = nada que preguntar

## Demolición
demolition-declared = La demolición está declarada y el recorrido de esta casa terminó. Lo que se ve desde ahora es un hallazgo: “underlath finding” lo anota junto al pronóstico.
demolition-withdrawn = { $n ->
    [0] La declaración se retiró; el recorrido sigue.
    [one] La declaración se retiró; el recorrido sigue. Una entrada que estaba aparte cuenta otra vez.
   *[other] La declaración se retiró; el recorrido sigue. { $n } entradas que estaban aparte cuentan otra vez.
}
demolition-by = { $by } declaró la demolición, { $at }.
demolition-by-for = { $by } declaró la demolición, { $at }: { $reason }
demolition-found = La demolición cuenta como empezada con el primer hallazgo ({ $by }, { $at }); ningún paquete la declara.
demolition-means = El recorrido terminó: lo que se ve desde ahora es un hallazgo.
demolition-set-aside = Anotado después; se conserva y no cuenta en ninguna parte
demolition-withdrawn-by = { $by } retiró una declaración de demolición, { $at }: { $reason }
assess-after-demolition = Calculado de nuevo después de declarada la demolición, con lo que el recorrido había contestado hasta entonces. Se guarda aparte y nunca se juzga.
finding-begins-demolition = Ningún paquete declara la demolición de esta casa: cuenta como empezada con este hallazgo. No se juzga ningún pronóstico que llegue desde ahora.
merge-set-aside = { $n ->
    [one] Una entrada vino después de declarada la demolición: se conserva y no cuenta en ninguna parte.
   *[other] { $n } entradas vinieron después de declarada la demolición: se conservan y no cuentan en ninguna parte.
}

## sheet, sheet-answers
sheet-made = { $n ->
    [one] hoja    { $file }  1 pregunta
   *[other] hoja    { $file }  { $n } preguntas
}
sheet-send = envíela a la familia o imprímala; las respuestas vuelven como { $answers }
sheet-no-plan = no hay trabajo planeado anotado, así que no puede decir qué se cortará: anote planned-work y hágala de nuevo
sheet-recorded = { $n ->
    [one] 1 respuesta anotada, dicha por { $by }
   *[other] { $n } respuestas anotadas, dichas por { $by }
}
sheet-recorded-and-remarks = { $n ->
    [one] 1 respuesta y { $remarks } con palabras anotadas, dichas por { $by }
   *[other] { $n } respuestas y { $remarks } con palabras anotadas, dichas por { $by }
}
sheet-corrects = { $answer } (corrige lo que había; se conservan las dos)
sheet-known = { $n ->
    [one] 1 de este archivo ya estaba aquí
   *[other] { $n } de este archivo ya estaban aquí
}
sheet-side-by-side = ≠ dos respuestas quedan lado a lado y no cuenta ninguna: anote la pregunta otra vez para decidir
sheet-stands = la familia no está segura, otros ya respondieron: { $items }
sheet-other-catalog = la hoja se hizo con otro catálogo; se tomó lo que todavía corresponde
sheet-not-taken = no se tomó: { $item } = { $said } ({ $why })
sheet-at-the-table = para preguntar en la mesa: { $items }

## promise
promise-head = { $n ->
    [one] Una promesa sobre una condición, hasta { $cap }
   *[other] Una promesa sobre { $n } condiciones, hasta { $cap }
}
promise-premium = prima { $premium } ± { $error }: la media { $mean } y { $loading } de lo que el P90 { $nine } queda por encima
promise-rare-and-dear = El P90 queda por debajo de la media: lo raro y caro está solo en la media, y el recargo resta en vez de sumar. Piense en cobrar al menos la media.
promise-payout = pago  media { $mean } ± { $error }, 8 de 10 dentro de { $eight } ± { $eight_error }, 9 de 10 dentro de { $nine } ± { $nine_error }
promise-cap = se llega al tope: { $chance }
promise-without = La prima sin una de ellas
promise-without-it = { $sum } sin ella
promise-under = Menos de { $sum }
promise-already = ya está en esa cifra
promise-no-check = ninguna comprobación que se pueda ofrecer dice algo de lo prometido
promise-cheapest = lo más barato con una probabilidad de { $chance } o más (se probaron todos los conjuntos de comprobaciones):
promise-cheap = lo más barato con una probabilidad de { $chance } o más (armado una comprobación a la vez):
promise-nearest = ningún conjunto de comprobaciones tiene una probabilidad de { $chance } (se probaron todos); el más cercano:
promise-near = ningún conjunto de comprobaciones tiene una probabilidad de { $chance } (armado una comprobación a la vez); el más cercano:
promise-check = { $check } ({ $who }), para { $conditions }
promise-plan = { $minutes } minutos, unos { $cost }; probabilidad de que la prima sea entonces { $wanted } o menos: { $chance }
promise-clear = probabilidad de que no aparezca nada: { $chance }, la prima entonces { $sum }; en promedio de todos los resultados { $mean }, porque mirar no cambia lo que hay
promise-draws = De { $n } sorteos conjuntos. No se anotó nada.
promise-loading = También lo es el recargo de { $loading }.
promise-loading-own = El recargo de { $loading } es de la propia empresa.
odds-are-judgment = Las probabilidades y los costos son del catálogo, y un solo factor sobre todas las probabilidades de base fija su nivel: es criterio, hasta que hablen los trabajos de la propia empresa.

## suppose
suppose-head = { $label }: si
suppose-in-price = en el precio base: { $condition }
suppose-look = { $check }, para: { $condition }
suppose-worth = { $n ->
    [one] mirar vale unos { $value } antes de su costo de unos { $cost } (un minuto, { $who }), por todo lo que dice
   *[other] mirar vale unos { $value } antes de su costo de unos { $cost } ({ $n } minutos, { $who }), por todo lo que dice
}
suppose-no-worth = ningún resultado cambiaría lo que conviene hacer; donde hay una barrera, la persona con licencia que se nombra mira primero, valga lo que valga mirar
suppose-changes = Probabilidades que cambian un punto o más
suppose-if-shows = Si aparece ({ $chance }), probabilidades que cambian un punto o más
suppose-if-not = Si no aparece ({ $chance }), probabilidades que cambian un punto o más
suppose-none = ninguna
suppose-gate = { $name }: { $caution } Primero: { $gate }.
suppose-not-recorded = Supuesto, no anotado.
suppose-now = ahora
suppose-then = entonces
suppose-shows = aparece ({ $chance })
suppose-shows-not = no aparece ({ $chance })
suppose-money = dinero { $p }
suppose-money-mean = dinero, media
suppose-in-base = en el precio base, media
suppose-over-5 = más del 5 % del contrato
suppose-days = días P50, P80, P90
not-in-scope = fuera del alcance
and-so-many-more = … y { $n } más

## catalog calibrate
calibrate-head = Lo desconocido que se espera de una cocina típica que nadie ha mirado, como parte de la cocina de gama media
calibrate-now = factor ahora
calibrate-proposed = propuesto
calibrate-wanted = deseado
calibrate-gives = da
calibrate-residual = quedan { $points } puntos, porque el factor se guarda con cuatro cifras
calibrate-by-era = Por época: un solo factor no sirve para todas
calibrate-jobs-head = El factor sobre las probabilidades de base, según los trabajos revisados de la empresa
calibrate-open = no se cuentan, condiciones sin hallazgo: { $n }
calibrate-other = no se cuentan, pronóstico con otro catálogo: { $n }
calibrate-none = ningún trabajo tiene un hallazgo para cada condición del alcance: el factor sigue siendo criterio
calibrate-reviewed = { $n } revisados; las sumas reales son { $ratio } de lo esperado
calibrate-factor = factor { $now } → { $factor }, nueve de cada diez entre { $low } y { $high }; el del catálogo cuenta como { $weight } trabajos
calibrate-small = pocos trabajos: la cifra es todavía sobre todo la del catálogo, y suerte
calibrate-take-over = No se cambió nada. Para adoptarlo, escríbalo en los cambios de la empresa (docs/overlay.md) y suba su versión:

## catalog
basis-judgment = criterio
basis-common-practice = práctica común, sin fuente
basis-window = años publicados, nivel a criterio
basis-derived = calculado de valores publicados
basis-published = publicado
basis-firm = de la empresa misma
catalog-no-faults = Catálogo versión { $version }: sin errores
catalog-no-overlay = no hay cambios de la empresa en uso
catalog-overlay-empty = los cambios de la empresa en { $path } no cambian nada
catalog-overlay-in-use = cambios de la empresa { $name }, en { $path }
catalog-overlay-counts = { $changes ->
    [one] 1 cambio
   *[other] { $changes } cambios
} · { $added ->
    [one] 1 cosa añadida
   *[other] { $added } cosas añadidas
} · { $removed ->
    [one] 1 cosa dejada fuera
   *[other] { $removed } cosas dejadas fuera
}
catalog-notes = Sin ser errores, merecen una mirada (en inglés)
catalog-jobs = { $n ->
    [one] contado en 1 trabajo
   *[other] contado en { $n } trabajos
}
catalog-diff-head = { $name }, catálogo versión { $version }
catalog-diff-changed = Cambiado
catalog-diff-added = Añadido
catalog-diff-removed = Dejado fuera
catalog-diff-nothing = nada
catalog-diff-with = y con ello { $what }
catalog-show-removed = no se ofrece aquí: { $reason } ({ $place })
catalog-show-standing = { $basis }, pesa { $weight ->
    [one] 1 casa
   *[other] { $weight } casas
}
catalog-show-by-firm = escrito por la empresa
catalog-show-by-catalog = escrito en el catálogo
catalog-show-was = era { $was }: { $why }
overlay-made = { $file } está escrito. Tal como está no cambia nada.
overlay-made-check = después de cada cambio: { $command }
overlay-made-use = para usarlo: { $option } con cualquier verbo, UNDERLATH_OVERLAY, o como la carpeta “overlay” en la carpeta de los registros
overlay-starter-name = Nuestra empresa
overlay-starter-reason = contado en nuestros propios trabajos
overlay-starter-judged = los dueños lo acordaron
overlay-starter-unused = no tenemos una
overlay-starter-head = Lo que nuestra empresa sabe mejor que el catálogo. Un ejemplo vale cuando se quita el signo ante sus líneas, # sin espacio; estas notas conservan el suyo. Cada cambio dice por qué (reason); cada número dice de dónde viene (basis) y, si se contó, en cuántos trabajos (jobs). Suba la versión (version) con cada cambio.
overlay-starter-money = Un número de la empresa: lo que cuesta un día de retraso, en dólares. “underlath catalog show setting” los lista todos.
overlay-starter-cost = Lo que cuesta una condición que se encuentra con el precio ya fijado: bajo, probable, alto, en dólares. “underlath catalog show condition bulkhead-duct” muestra sus claves.
overlay-starter-odds = Cuántas casas de una época la tienen.
overlay-starter-codes = Con qué libro trabaja la empresa.
overlay-starter-removed = Lo que no se ofrece aquí, con su razón. Condiciones y preguntas propias se añaden con [[condition]], [[clue]], [[item]]: docs/overlay.md muestra una.

## photo mark, marks, measure
mark-made = { $mark }  { $shape } en { $photo }
mark-taken-back = { $mark } ya no se dibuja; queda en el registro
mark-none = no hay marcas en { $photo }
mark-drawn = { $file }  las marcas sobre una copia pequeña; el original queda como estaba
shape-arrow = flecha
shape-ring = círculo
shape-words = palabras: { $text }
shape-dimension = cota { $length }
shape-paper = papel de { $width } por { $height }
measure-length = { $length } ± { $tolerance }  (dos desviaciones estándar; una son { $sigma } in)
measure-distance = según la foto la cámara estaba a { $feet } ft { $inches } in del plano: si usted estaba en otro lugar, no se fíe
measure-focal = la foto no dice su distancia focal; se tomó la de un teléfono
measure-not-recorded = no se anotó nada; agregue --item ITEM para anotarlo
measured-on-photo = medido en la foto { $photo } junto a algo de tamaño conocido

## field
field-open = Las pantallas están abiertas en un navegador de esta máquina, una vez, en
field-how = La dirección sirve para un navegador y con eso queda usada. Nada fuera de esta máquina llega a ella. Ctrl-C lo termina.
field-again = termínelo, inicie “underlath field” otra vez y abra la dirección que imprime
field-foreign = esto lo pidió otra página o con otro nombre, y no se responde
field-unknown = este navegador no abrió la dirección impresa
field-token = esta dirección ya se abrió, o es otra
field-no-page = no hay tal página
field-no-json = un comando se pide en JSON
field-photo-without = una fotografía necesita la casa (survey) y el nombre de su archivo (name)
field-photo-large = no se recibe una fotografía de más de { $most } MB
field-large = más de { $most } kB no son un comando
field-unread = no llegó todo
field-ended = el comando no llegó a su fin

## Llaves
seal-certified = sellado con la llave { $key }, certificada por { $firm } (núm. { $serial })
seal-not-certified = sellado con la llave { $key }, por la que ninguna empresa respondió
verify-key = el sello vale: sellado con la llave { $key }
verify-certified = esa llave está certificada por { $firm } (núm. { $serial }) como “{ $device }”
verify-certified-open = su certificado dice { $firm } (núm. { $serial }); sin comprobar, porque no se dieron las llaves públicas de la empresa (--firm)
verify-no-firm = ninguna empresa respondió por esa llave
verify-valid = el certificado valía cuando se selló según el reloj del dispositivo, { $when }, y llegaba hasta { $until }
verify-valid-open = sin comprobar: si un certificado valía entonces
verify-received = recibido por la oficina el { $when }
verify-received-open = sin comprobar: cuándo lo recibió la oficina (--receipt)
verify-not-revoked = no revocada hasta entonces, según la lista de revocaciones { $number } del { $issued }
verify-revoked-open = sin comprobar: si la llave se revocó (--revoked)
verify-fails = no vale: { $said }
receive-certified = sellado con la llave { $key }, con el certificado núm. { $serial }
receive-not-certified = sellado con la llave { $key }, por la que ninguna empresa respondió
receive-receipt = recibo para el dispositivo: { $path }
receive-no-receipt = sin recibo firmado: esta oficina todavía no tiene llave (underlath keys new-office)
receipt-kept = recibido { $when } por { $firm }; el recibo se guarda: { $path }
keys-none = este dispositivo todavía no tiene llave; hace una cuando sella o pide quedar certificado
keys-device = llave de este dispositivo  { $key }
keys-kept = su secreto se guarda en  { $path }
keys-certified = certificada por { $firm } (núm. { $serial }), del { $from } al { $until }
keys-not-certified = ninguna empresa responde por ella todavía: underlath keys request
certificate-ended = el certificado núm. { $serial } venció el { $until }: la oficina no aceptará lo que se selle ahora. Haga que lo renueven (underlath keys request)
certificate-ends = el certificado núm. { $serial } vence el { $until }; haga que lo renueven antes (underlath keys request)
keys-new = llave nueva de este dispositivo: { $key }; haga que la oficina la certifique
keys-requested = solicitud escrita: { $path }; diga la llave a la oficina, para que la compare: { $key }
keys-office-made = llave de la oficina de { $firm }: { $key }
keys-office = llave de la oficina de { $firm }  { $key }
keys-row-until = hasta { $until }
keys-row-revoked = revocada desde { $since }: { $why }
keys-certificate-given = certificado núm. { $serial } para “{ $device }” ({ $key }): { $path }
keys-written = escrito: { $path }
keys-revoked = lista de revocaciones { $number }, con { $n } { $n ->
        [one] línea
       *[other] líneas
    }

## track, learn

track-head = Historial de aciertos de { $n ->
    [one] 1 casa
   *[other] { $n } casas
}
track-none = todavía nada que calificar: ninguna casa tiene un pronóstico anterior a su primer hallazgo y un lugar abierto
track-counts = { $opened } lugares abiertos, { $found } hallados; en ningún puntaje: { $closed } sin abrir, { $open } sin hallazgo
track-small = cifras pequeñas (menos de { $outcomes } resultados o { $houses } casas): la suerte pesa mucho, no se traza curva
track-brier = Brier { $brier } contra { $base } de las frecuencias de base de las demás casas{ $skill }
track-parts = fiabilidad { $reliability } − resolución { $resolution } + incertidumbre { $uncertainty }
track-log = puntaje logarítmico { $log } contra { $base }{ $skill }
track-auc = distinguidos (área bajo la curva ROC): { $auc }
track-money = dinero, todo abierto
track-money-in-part = dinero, un lugar quedó cerrado (límite inferior)
track-days = días, todo abierto
track-days-in-part = días, un lugar quedó cerrado (límite inferior)
track-within = { $what }: { $n ->
    [one] 1 casa
   *[other] { $n } casas
}, en promedio { $actual }; dentro de P50 { $p50 }, P80 { $p80 }, P90 { $p90 }
track-crps = desvío medio { $crps } (CRPS)
track-by-condition = Por condición
track-by-era = Por época
track-by-scope = Por trabajo previsto
track-by-surveyor = Por quien recorrió la casa
track-by-month = Por mes del pronóstico
track-column-name = qué
track-column-houses = casas
track-column-found = hallados
track-column-closed = sin puntaje
track-column-brier = puntaje Brier
track-column-skill = habilidad
track-column-log = logarítmico
track-few = cifras pequeñas
track-unknown = no se sabe
track-groups-overlap = Una casa puede estar en varias filas.
track-out-no-findings = fuera, sin hallazgo: { $n }
track-out-no-forecast = fuera, abiertas antes de que llegara un paquete: { $n }
track-out-nothing-opened = fuera, no se abrió nada: { $n }
track-out-seen = fuera, pronosticadas con números que habían aprendido de la casa (--seen-too las deja dentro): { $n }
track-again-head = Pronosticadas otra vez, aparte del historial: { $n ->
    [one] 1 casa
   *[other] { $n } casas
}
track-again = El último pronóstico de las casas selladas más de una vez; { $n } de ellas antes de hallar algo. Puede saber más que el primero, así que no es historial.
track-drawn = dibujado: { $path }
learn-head = Lo que { $n ->
    [one] enseña 1 casa
   *[other] enseñan { $n } casas
}
learn-none = nada de que aprender: ninguna casa tiene un pronóstico anterior a su primer hallazgo
learn-known = { $n } casas ya están en los números del catálogo y no se cuentan otra vez
learn-skipped = una casa no dice nada: { $why }
learn-held-out = puntaje logarítmico en { $n } lugares abiertos de casas de las que no se aprendió: { $before } con el catálogo tal como está, { $after } con lo que enseñan las demás; menos es mejor
learn-not-held-out = sin calificar en casas aparte: hacen falta diez casas, y sin --quick
learn-evidence = { $houses } casas, { $opened } lugares abiertos; los números anteriores valen por { $weight } casas
learn-small = cifras pequeñas: sobre todo las del catálogo y la suerte
learn-line-held-out = en { $n } lugares aparte: { $before } antes, { $after } después
learn-more = y { $n } líneas más: --json las da todas
learn-accept = No se cambió nada. Para adoptar líneas: underlath learn --accept LÍNEA …
learn-written = { $n ->
    [one] 1 línea adoptada
   *[other] { $n } líneas adoptadas
} en { $path }
learn-noted = anotado de qué { $n } casas ha aprendido el catálogo: { $path }
learn-carry = Para que cada tableta trabaje con ello: underlath catalog publish. Los pronósticos nombran los números con que se hicieron.
record-bin = de { $from } a { $to } de cada 10
record-era = de { $from } a { $to }
record-era-to = hasta { $to }
record-era-from = desde { $from }
learned-line = { $condition }: { $what }
learned-share = frecuencia de base por época
learned-present = si está ahí
learned-absent = si no está ahí
learned-absent-era = si no está ahí, { $era }
learned-sensitivity = la muestra, si está ahí
learned-specificity = no muestra nada, si no está ahí

## El escritorio de la oficina
office-seal-holds = Entero. La llave que lo selló está certificada por la empresa, y el sello vale.
office-seal-no-key = Entero. Esta oficina todavía no tiene llave, así que nadie puede decir de quién es el sello.
office-seal-uncertified = Entero. La llave que lo selló no está certificada por nadie: compárela con la de la tableta.
office-seal-other-firm = Entero. Su certificado no es de esta empresa.
office-seal-not-valid = Entero. Su certificado no valía cuando se selló.
office-seal-revoked = Entero. La llave que lo selló está revocada.
office-seal-receipt = Entero. Lo que esta oficina firmó cuando llegó no va con él.
office-seal-gone = Ya no se puede abrir. Reciba el mismo paquete otra vez; la tableta todavía lo tiene.

# La línea con la oficina
pair-done = enlazado con { $firm } en { $address }, como «{ $name }»
pair-none = este dispositivo no está enlazado con ninguna oficina
pair-undone = la oficina queda olvidada; los paquetes, los recibos y el certificado se quedan
pair-device = dispositivo { $id }
send-done = paquete { $n }: { $said }
error-nothing-sealed = ningún paquete de esta casa se selló en este dispositivo
error-nothing-sealed-hint = séllela primero: underlath seal
error-not-sent = no se envió todo: { $said }
error-not-sent-hint = envíelo de nuevo; la oficina guarda lo que ya tiene
publish-done = la versión { $number } está publicada; archivos de la empresa en ella: { $files }, casas que están en sus números: { $houses }. Las tabletas la toman en el próximo contacto.
fetch-here = versión { $number } del catálogo de la oficina, aquí desde { $since }; publicada por { $by } ({ $at }); casas que están en sus números: { $houses }
fetch-unused = no está en uso: { $why }
fetch-none = aquí no hay catálogo de la oficina; se usa el original, con lo que tenga encima
fetch-nothing = la oficina no tiene nada más nuevo
fetch-not-taken = el catálogo de la oficina no se tomó: { $why }
