# Lo que no se puede hacer, por qué, y cómo arreglarlo. `said` es lo que una parte del programa dijo de un archivo, en su propio inglés.

## Nombres de lo que se anota
the-reason = la razón
the-label = el nombre
the-note = la observación
the-name = el nombre
the-file-name = el nombre del archivo

## Respuestas
error-about-item = { $item }: { $what }
error-words = { $what } no se puede guardar tal como está
error-words-hint = use de 1 a 4,000 letras, cifras y signos, sin caracteres de control
error-out-of-range-hint = mida otra vez; si de verdad es así, anótelo una vez más y diga que está seguro
complaint-kept = { $fault }; se guarda porque usted está seguro
error-no-why = { $item }: diga por qué no se pudo llegar
error-no-why-hint = por ejemplo «panel detrás del congelador»
error-no-answer = { $item }: no hay respuesta
error-one-answer = { $item } toma una respuesta, se dieron { $n }
error-no-option = { $item }: «{ $word }» no es ninguna de sus respuestas
error-two-lengths = { $item }: «{ $text }» puede ser dos largos
error-no-length = { $item }: «{ $text }» no es un largo
error-no-length-typed = «{ $text }» no es una medida
error-length-hint = { $note }
error-check-hint = escriba la comprobación, lo que mostró y la condición, como «live-scan shows-it bulkhead-wires»; lo que mostró es shows-it, shows-not o unclear
error-no-check-result = «{ $text }» no es un resultado de comprobación
error-no-check = «{ $check }» no es una comprobación del catálogo
error-no-outcome = «{ $word }» no es un resultado posible de una comprobación
error-check-silent = la comprobación «{ $check }» no dice nada sobre «{ $condition }»
error-condition-once = una casa tiene «{ $condition }» una sola vez, sin lugar
error-no-condition = «{ $condition }» no es una condición del catálogo
error-tolerance-of-length = solo un largo tiene tolerancia
error-no-tolerance = «{ $text }» no es una tolerancia
error-no-tolerance-hint = escriba ± como un largo, por ejemplo 1/8 in
error-did-you-mean = ; ¿quiso decir «{ $word }»?
error-did-you-mean-hint = ¿quiso decir { $word }?
error-no-item = «{ $item }» no es un punto del recorrido
error-no-item-hint = los puntos son los que pregunta el recorrido; muestre la casa para verlos
error-photo-not-here = la foto { $photo } no está en este levantamiento
error-photo-not-here-hint = primero agregue la foto
error-answer-unknown-item = el recorrido no tiene el punto «{ $item }»{ $meant }
error-answer-unknown-option = «{ $given }» no es respuesta a «{ $item }»{ $meant }; puede ser: { $known }
error-answer-wrong-kind = «{ $item }» se responde de otra forma (en inglés: { $wanted })
error-answer-wrong-unit = «{ $item }» se pide en { $wanted }, no en «{ $given }»
error-answer-out-of-range = { $given } está fuera de lo que cabe en «{ $item }»: de { $min } a { $max }
error-answer-stands-alone = «{ $option }» de «{ $item }» va sola; quite esa o las otras
error-answer-empty = «{ $item }» necesita al menos una opción, o «can't tell»
error-answer-unknown-check = no hay una comprobación «{ $given }»{ $meant }
error-answer-unknown-condition = no hay una condición «{ $given }»{ $meant }
error-number-none = «{ $text }» no es un número; escriba cifras, como 52 o 1.25
error-number-none-unit = «{ $text }» no es un número; escriba cifras, como 52 o 1.25 (en { $unit })
error-number-no-unit = «{ $text }» está en { $found }, pero esto se pide como número solo; conviértalo y anótelo otra vez
error-number-unit = «{ $text }» está en { $found }, pero esto se pide en { $wanted }; conviértalo y anótelo otra vez
error-number-fine = «{ $text }» tiene más cifras de las que se pueden guardar; use a lo más tres decimales y un millón

## Lo que toma un punto
takes-option = toma una opción: { $options }
takes-options = toma una o varias opciones: { $options }
takes-inches = toma un largo, como 19 3/8 o 492 mm (un número solo va en pulgadas)
takes-feet = toma un largo, como 19 3/8 o 492 mm (un número solo va en pies)
takes-number = toma un número solo
takes-number-unit = toma un número en { $unit }
takes-checks = toma resultados de comprobaciones, como «live-scan shows-it bulkhead-wires»

## Casas
error-label = una casa necesita un nombre de 1 a 120 caracteres en una línea
error-label-hint = dele un nombre que diría por teléfono, como «cocina de Mill Lane»
error-label-taken = ya hay un levantamiento «{ $label }» en este dispositivo
error-label-taken-hint = elija otro nombre, o siga anotando en ese
error-contract = el precio del contrato debe ser más de 0 y a lo más diez mil millones de dólares
error-contract-hint = omítalo si todavía no hay
error-no-house = No hay un levantamiento «{ $wanted }»
error-no-house-hint = Nombre uno por su nombre o por el principio de su identificador. Aquí hay: { $there }.
error-no-house-yet = Nombre uno por su nombre o por el principio de su identificador. Aquí todavía no hay ninguno.
error-no-survey = no hay un levantamiento { $survey } en este dispositivo
error-log-damaged = el registro de este levantamiento está dañado: { $said }
error-rescue-hint = guarde lo que se pueda leer con «underlath rescue ARCHIVO», y conserve la carpeta como está

## Cálculos y libros de código
error-no-calculation = no hay un cálculo «{ $word }»
error-no-calculation-hint = vea la lista con `underlath calc`
error-no-family = no hay una familia de códigos «{ $word }»
error-no-family-hint = escriba familia=libro; las familias son { $families }
error-no-book = no hay un libro de código «{ $word }» para { $family }
error-no-book-hint = los libros son { $books }

error-no-packet = en este dispositivo no se selló ningún paquete { $n } de esta casa
error-no-packet-hint = vea la lista de sus paquetes
error-packet-gone = el paquete ya no está donde se selló: { $path }
error-packet-gone-hint = selle la casa de nuevo; nada de lo anotado se pierde
error-packet-changed = el paquete no es el archivo que se selló: { $path }
error-no-downloads = no hay una carpeta donde poner archivos
error-no-downloads-hint = defina XDG_DOWNLOAD_DIR
error-no-sealing = no se está sellando ningún paquete de esta casa
error-no-sealing-hint = empiece a sellarla
error-no-page-to-sign = este programa no hace páginas, así que no hay ninguna que la familia pueda firmar
error-nothing-to-sign = ahora no hay página que firmar: empiece a sellar otra vez, con la firma de la familia
error-signature-drawn = la firma dibujada sale de su campo o tiene más trazos de los que hace una mano; bórrela y dibújela otra vez
error-not-signed = { $path }: ninguna familia lo firmó
error-packet-pages = el paquete no tiene páginas
error-packet-pages-hint = selle con un programa hecho con páginas
error-template-large = { $path }: una carpeta de plantillas puede tener { $most } archivos de 1 MB cada uno
error-template-large-hint = saque lo que las páginas no necesitan

## Ajustes
error-no-setting = no hay un ajuste «{ $setting }»
error-no-setting-hint = los ajustes son firm, by, device, language, light, unit, tolerance y codes- con una familia
error-setting-value = «{ $value }» no es un valor de { $setting }
error-setting-value-hint = los valores son { $values }, o nada
error-codes-fixed = los libros de { $family } los fija el catálogo de la empresa
error-codes-fixed-hint = cámbielos en el catálogo propio de la empresa
code-family = { $family ->
    [plumbing] plomería
    [gas] gas combustible
    [electrical] electricidad
    [framing] estructura de madera
   *[other] materiales antiguos
 }

## Los registros de este dispositivo
error-store = { $said } ({ $place })

## Evaluaciones
error-assess-impossible = estas respuestas no pueden ser todas ciertas juntas según el catálogo: { $items }. Vuelva a mirar una de ellas, o respóndala «can't tell»; todo lo anotado queda anotado
error-assess-too-large = la red de esta casa es demasiado grande para calcularla exactamente (en inglés: { $said })
error-assess-catalog = del catálogo no sale una red (en inglés: { $said }); revise los cambios de la empresa al catálogo
error-forecast-unreadable = la evaluación no se puede leer (en inglés: { $said })
error-forecast-older = la evaluación tiene la forma { $found }; este programa lee la forma { $known }: evalúe la casa otra vez
error-forecast-newer = la evaluación tiene la forma { $found }; este programa lee la forma { $known }: use un programa más nuevo

## Fotos y paquetes
error-photos-refused = { $n ->
    [one] 1 de { $of } archivos no es una foto que se pueda recibir
   *[other] { $n } de { $of } archivos no son fotos que se puedan recibir
 }
error-photo-copy-there = { $path } ya existe; las copias nunca se escriben sobre otro archivo
error-no-marked-photo = Ninguna foto de esta casa lleva marcas
error-no-marked-photo-hint = Haga una con el verbo photo mark, o nombre las fotos por el comienzo de su huella.
error-packet = el paquete no se puede usar (en inglés: { $said })
error-photo-unread = foto { $photo }: no se puede leer (en inglés: { $said })
error-packet-io-mend = Revise que el disco tenga espacio, que la ruta sea correcta y se pueda escribir, e intente otra vez.
error-packet-altered-mend = Copie otra vez el paquete del dispositivo que lo selló y compare su suma; no lo vuelva a empacar ni lo edite.
error-packet-name-mend = No desempaque este archivo; pida a quien lo mandó el paquete tal como se selló.
error-packet-newer-mend = Use una versión más nueva de este programa; el paquete bien puede estar entero.
error-packet-too-large-mend = Pregunte a quien lo mandó qué es este archivo; un paquete de una casa es mucho más chico.
error-packet-exists-mend = Selle en otra carpeta, o mueva el archivo que está ahí.
error-packet-contents-mend = Haga la comprobación del levantamiento; esto no cambia el registro del dispositivo.
error-packet-photo-mend = Ponga la foto original de vuelta donde la guarda el levantamiento, y selle otra vez.
error-packet-pages-mend = Si arriba se nombra una plantilla propia de la empresa, corríjala o sáquela de su carpeta; si no, mande el mensaje con el registro. No se pierde nada.

## Archivos, carpetas y lo que se escribe
error-file = { $path }: el archivo no se pudo usar (en inglés: { $said })
error-file-missing = { $path }: no está (en inglés: { $said })
error-file-full = { $path }: el disco está lleno (en inglés: { $said })
error-path-hint = revise la ruta; no se anotó nada
error-room-hint = libere espacio en ese disco e intente otra vez
error-not-a-file = { $path } no es un archivo
error-no-file = no hay un archivo { $path }
error-no-file-hint = revise la ruta; no se recibió nada
error-too-large = { $path } pasa de 256 MB
error-no-folder = no hay carpeta para los registros
error-no-folder-hint = nombre una, o defina { $variable }
error-person = el nombre de una persona tiene de 1 a 80 caracteres en una línea
error-broken-off = el trabajo se interrumpió
error-no-command = no existe la orden «{ $command }»
error-command-args = «{ $command }» no se puede pedir así: { $said }
error-no-length-item = «{ $item }» no lleva medida
error-no-act = en esta casa no hay nada que deshacer
error-act-answered-since = { $by } ya respondió esto después; desde aquí no se puede deshacer
error-act-answered-since-hint = responda otra vez la pregunta: se conservan las dos respuestas
error-input = la entrada estándar no se puede leer (en inglés: { $said })
error-input-json = la entrada estándar no es JSON (en inglés: { $said })
error-input-json-hint = dé una lista de casos, o un objeto con «cases»
error-reckon = el caso no se puede calcular (en inglés: { $said })
error-line = { $file } línea { $line }: no se puede leer (en inglés: { $said })
error-nothing-taken = no se recibió nada
error-verify = { $path }: no es un paquete entero como se selló (en inglés: { $said })
error-problems = { $n ->
    [one] 1 problema en { $path }
   *[other] { $n } problemas en { $path }
}

## Catálogo, muestras, demostración
error-catalog = el catálogo no se puede usar (en inglés: { $said })
error-catalog-hint = corrija el catálogo; no se anotó nada
error-catalog-none = { $path } no tiene archivos de catálogo (*.toml)
error-catalog-faults = { $n ->
    [one] 1 error
   *[other] { $n } errores
}
error-no-photo = no hay una fotografía { $photo } en este dispositivo
error-no-screens = este programa se compiló sin las pantallas
error-no-screens-hint = “make field” las compila (necesita Node) y con ellas un programa que las lleva dentro
error-port-taken = otro programa ocupa el puerto { $port }
error-port-denied = no se puede tomar el puerto { $port } (en inglés: { $said })
error-port-hint = nombre otro con --port, o no nombre ninguno
error-catalog-thing = el catálogo no tiene eso (en inglés: { $said })
error-catalog-thing-hint = las clases son { $kinds }; “underlath catalog show CLASE” lista los identificadores de una
error-overlay-there = { $path } ya está ahí
error-overlay-there-hint = edítelo, o nombre otra carpeta
error-own-words = { $file } línea { $line } no se puede leer como mensaje: { $text }
error-own-words-hint = escriba un mensaje así: identificador = palabras
error-no-samples = { $path } no tiene levantamientos de muestra
error-no-samples-hint = córralo en la carpeta del proyecto, o nombre la carpeta con --samples
error-sample = { $path } línea { $line }: la muestra no se puede leer (en inglés: { $said })
error-sample-hint = las claves se explican en el README junto a las muestras
error-demo-folder = { $path } contiene algo que este comando no hizo
error-demo-folder-hint = nombre otra carpeta con --into
error-demo-twice = la oficina no recibió el paquete exactamente una vez
error-cost = { $condition }: el costo { $cost } no se puede guardar
error-internal = falla del programa (en inglés: { $said })

## La oficina
error-office-packet = este paquete no se recibió (en inglés: { $said })
error-office-mismatch = el paquete de «{ $label }» tiene una evaluación de otra casa o de otro registro; no se recibió. Selle la casa otra vez en la tableta
error-office-conflict = el paquete { $number } de «{ $label }» ya se había recibido con otro contenido ({ $held }); este ({ $offered }) no se recibió. Pregunte qué tableta lo selló dos veces, y selle la casa otra vez ahí
error-office-no-house = la oficina no tiene la casa «{ $wanted }»; tiene: { $known }
error-office-several = «{ $wanted }» puede ser varias casas: { $known }; dé más del identificador
error-office-no-packet = la oficina no tiene el paquete { $packet }
error-office-no-forecast = ningún paquete de la casa { $survey } llegó antes de que empezara su demolición, así que no hay pronóstico con qué compararlo
error-office-not-forecast = el pronóstico de esta casa no tiene «{ $condition }»; lo que se halló de todos modos se anota en «Se halló otra cosa», o con “underlath finding”
error-office-in-forecast = el pronóstico de esta casa tiene «{ $condition }»; anote lo que se halló en su fila
error-office-long-note = una nota tiene a lo más { $most } letras
error-office-no-place = el pronóstico de esta casa no tiene el lugar «{ $place }»; tiene: { $known }
error-promise-refused-hint = déjelo fuera, o haga que lo revisen y anótelo primero; «underlath assess» muestra lo que está en el alcance
error-office-no-condition = «{ $condition }» no es una condición del catálogo{ $meant }
error-office-database = la base de datos de la oficina { $path } no se puede usar (en inglés: { $said }). Restáurela de la última copia; los paquetes se pueden recibir otra vez, los hallazgos no
error-office-newer = la base de datos de la oficina { $path } la escribió un programa más nuevo; use ese
error-finding-cost = «{ $condition }» dice { $outcome } pero lleva costo o días; anótela como hallada, o deje los dos en 0
error-finding-paid = «{ $condition }» dice { $outcome }, así que nadie pagó por ella; anótela como hallada, o no diga quién pagó
error-finding-range = el costo { $cost } y { $days } días para «{ $condition }» no se pueden guardar; los dos deben ser 0 o más, los días a lo más 1000

## Cálculos
error-nothing-drawn = esta respuesta no tiene nada que dibujar; no se escribió ningún archivo
error-drawing-name = «{ $path }» no es nombre para un dibujo
error-drawing-name-hint = nombre un archivo, como arm.svg
error-no-drawing = { $path } está ahí y no es un dibujo; se dejó como estaba
error-no-drawing-hint = nombre otro archivo
error-stands-alone = «{ $word }» está sola
error-stands-alone-hint = escriba las respuestas como --nombre valor
error-no-value = --{ $name } no tiene valor
error-no-value-hint = escriba --nombre valor

## La ventana
error-no-folder-window-hint = defina UNDERLATH_HOME con una y empiece otra vez

## Places, sheets, suppositions
error-place-no-word = “{ $label }” no tiene ninguna palabra
error-place-no-word-hint = póngale nombre, por ejemplo según lo que tiene debajo o al lado
error-place-there = “{ $label }” ya está
error-place-there-hint = anote sus respuestas con --place { $place }, o use otras palabras para otro lugar
error-places-full = la casa ya tiene { $n } de “{ $station }”; un recorrido admite { $most }
error-places-full-hint = levante el resto como otra casa, o quite uno
error-place-first = “{ $place }” es el primero de su clase y se queda
error-place-first-hint = si no hay ninguno, responda así sus preguntas; para cambiar cuál es el primero, anótelo ahí
error-item-once = “{ $item }” se pregunta una vez por casa, no en “{ $place }”
error-item-once-hint = no ponga el lugar
error-item-at-each = “{ $item }” se pregunta en cada uno de { $n } lugares
error-item-at-each-hint = diga cuál con --place: { $places }
error-place-out = “{ $place }” se quitó
error-place-out-hint = añádalo otra vez con su nombre: lo que se anotó ahí se conserva
error-no-place = la casa no tiene el lugar “{ $place }”
error-no-place-hint = tiene: { $places }
error-station-once = una casa tiene “{ $station }” una sola vez
error-no-station = “{ $station }” no es una estación del recorrido
error-several-hint = puede haber varios de: { $stations }
error-name-long = un nombre tiene una línea de { $most } caracteres como máximo
error-name-long-hint = deje el resto para una nota
error-no-stop = el recorrido no tiene la estación ni el lugar “{ $name }”
error-no-stop-hint = las estaciones son: { $stations }
error-no-stop-near-hint = ¿quiso decir “{ $near }”? las estaciones son: { $stations }
error-order-start = el recorrido comienza con lo que se planea
error-order-start-hint = el plan decide qué se pregunta en las demás paradas; mueva una de ellas
error-order-first = “{ $place }” ya es la primera parada
error-order-last = “{ $place }” ya es la última parada
error-order-there = “{ $place }” ya se recorre ahí
error-order-listed = la casa ya se recorre en el orden del catálogo
error-act-ordered-since = { $by } ya cambió el orden del recorrido después; desde aquí no se puede deshacer
error-act-ordered-since-hint = mueva otra vez la parada: se conservan los dos cambios
error-demolition-again = { $by } ya declaró la demolición de esta casa ({ $at })
error-promise-late = { $by } declaró la demolición de esta casa ({ $at }); una promesa se hace antes de abrir nada
error-promise-late-hint = una promesa hecha antes está en el paquete sellado antes; selle este sin promesa
error-demolition-none = nadie ha declarado la demolición de esta casa
error-demolition-sealed = la casa se selló después de declarada la demolición, así que la declaración queda
error-demolition-sealed-hint = quizá la oficina ya lo sabe; lo que se abrió, o no se abrió, se anota allí como hallazgo
error-which-place = no se dice a qué lugar se refiere
error-which-place-hint = nombre el lugar: underlath place HOUSE PLACE --label NAME
error-place-needs-name = otro de “{ $which }” necesita un nombre
error-place-needs-name-hint = por ejemplo: underlath place HOUSE bulkhead "Cajón sobre el refrigerador"
error-sheet-name = “{ $file }” no sirve como nombre de una hoja
error-sheet-name-hint = nombre un archivo, por ejemplo mill-lane.html
error-no-sheet-there = { $file } existe y no es una hoja; no se tocó
error-other-file-hint = nombre otro archivo
error-no-survey-here = no hay tal levantamiento en este equipo
error-no-check-item = el recorrido de este catálogo no tiene dónde anotar resultados de comprobaciones
error-nothing-supposed = no se supone nada
error-nothing-supposed-hint = suponga una respuesta, el resultado de una comprobación, una mirada o una condición incluida en el precio
error-neither-yes-nor-no = “{ $word }” no es ni yes ni no
error-neither-yes-nor-no-hint = escriba --shows CHECK KEY yes, o --shows CHECK KEY no
error-one-look = se supone una sola mirada a la vez
error-one-look-hint = suponga el resultado de las otras con --shows

## Marks and measuring on photographs
the-words = las palabras
error-photos-begin-so = varias fotos empiezan con “{ $photo }”
error-photos-begin-so-hint = escriba más de su huella
error-no-mark = la foto no tiene la marca { $mark }
error-no-mark-hint = “underlath photo marks” las muestra
error-marks-full = una foto admite { $most } marcas
error-marks-full-hint = quite algunas, o marque otra foto
error-mark-outside = el punto { $x },{ $y } queda fuera de la foto
error-mark-outside-hint = la foto derecha mide { $width } por { $height } píxeles
error-no-point = “{ $text }” no es un punto
error-no-point-hint = escriba dos números con coma, como 1204,860
error-no-paper = “{ $text }” no es un papel
error-no-paper-hint = escriba letter, a4 o dos longitudes como 12x18
error-no-mark-id = “{ $text }” no es el identificador de una marca
error-plane-number = una marca o un tamaño no es un número
error-plane-number-hint = marque otra vez
error-plane-outline = las cuatro marcas no son el contorno de una hoja
error-plane-outline-hint = marque sus esquinas una tras otra alrededor
error-plane-horizon = un extremo queda más allá del horizonte del plano de la hoja
error-plane-horizon-hint = marque extremos que estén en el plano de la hoja
error-plane-no-length = los dos extremos son el mismo punto
error-plane-no-length-hint = marque dos extremos
error-plane-uncertain = { $inches } in, más o menos { $give_or_take } in: demasiado incierto para anotarlo
error-plane-uncertain-hint = ponga la hoja más cerca de lo que se mide, en su plano, y fotografíe las dos de frente

## Largos como se escriben
length-how = escriba 19 3/8, 19.375, 3' 6 1/2" o 492 mm
length-too-fine = tiene más cifras de las que un largo puede guardar; escriba 19 3/8 o 19.375
length-too-long = es más largo que cualquier casa (el límite es 10 km); revise la unidad
length-range = podría ser un margen; anote un solo número, y el otro como medida aparte
length-rounded = no es un número entero de 1/8 µm: se redondeó una vez
length-too-many = demasiados caracteres para un largo; { $how }
length-about = marcado como aproximado: vuelva a medir si puede
length-nothing = no hay nada que leer; { $how }
length-comma = una coma puede ser punto decimal o separador de miles; escriba 36.5, o 1200 sin coma
length-negative = un largo no es negativo; escriba la distancia, y diga en una nota hacia qué lado
length-inches-first = las pulgadas están antes que los pies; escriba primero los pies, como 3' 6 1/2"
length-feet-and-metric = pies y sistema métrico en un mismo largo; escríbalo en un solo sistema
length-feet-twice = los pies están escritos dos veces; escriba el segundo número como pulgadas, como 3' 6"
length-part-of-foot = una parte de pie junto con pulgadas: revise los pies
length-twelve-inches = 12 pulgadas o más después de los pies: revise los pies
length-decimal-and-fraction = un decimal y una fracción en un mismo número; { $how }
length-over-zero = una fracción sobre cero; escríbala como 3/8
length-whole-fraction = la fracción es un entero o más: revísela
length-odd-fraction = ninguna cinta trae esta fracción; lo usual va de medios a sesenta y cuatroavos
length-metric-fraction = una fracción de una unidad métrica: revise la unidad, o escriba un decimal
length-no-number = una unidad sin número; { $how }
length-hyphens = un largo no es negativo; escriba a lo más un guion, como 3'-6"
length-range-or-feet = podría ser un margen o pies y pulgadas; escriba 5' 6 1/2", o anote un solo número del margen
length-no-unit = números sin unidad entre ellos pueden ser pies y pulgadas o un descuido; escriba 3' 6 1/2" o 36 1/2
length-not-one = no se lee como un solo largo; { $how }
length-inches-and-metric = pulgadas y sistema métrico en un mismo largo; escríbalo en un solo sistema
length-after-unit = algo sigue después de la unidad; { $how }
length-no-unit-word = «{ $word }» no es una unidad que se lea aquí; { $how }
length-odd-sign = «{ $sign }» no va en un largo; { $how }
length-two-sizes = dos medidas en una sola anotación; anote cada una como su propio largo
length-slash = una fracción lleva un número entero arriba y otro abajo, como 3/8
length-run-together = dos números pegados; { $how }

## Las respuestas de la familia
error-sheet-large = el archivo tiene { $bytes } bytes, más de los que tienen nunca las respuestas de una hoja
error-sheet-unreadable = el archivo no se puede leer como respuestas de una hoja: { $said }
error-sheet-other-kind = el archivo no trae respuestas de una hoja
error-sheet-newer = el archivo tiene la forma { $found }; este programa lee la forma { $known }: use un programa más nuevo
error-sheet-house = estas respuestas son del levantamiento { $survey }, otra casa
error-sheet-house-hint = nombre la casa de la que son; no se anotó nada
error-sheet-twice = «{ $item }» se responde dos veces en el archivo
error-sheet-not-asked = «{ $item }» no se pregunta en una hoja
error-sheet-words = las palabras en { $place } no se pueden guardar: a lo más { $most } letras, cifras y signos, ninguno que maneje la pantalla
error-sheet-firm = el nombre de la empresa no se puede guardar: a lo más { $most } letras, cifras y signos, ninguno que maneje la pantalla
error-sheet-day = «{ $text }» no es un día; una hoja lo escribe como 2026-04-10
error-sheet-empty = el archivo no trae respuestas
error-sheet-nothing-hint = no se anotó nada
error-sheet-file-hint = pida el archivo que hizo «Guardar mis respuestas», tal como se guardó; no se anotó nada
error-sheet-changed-hint = el archivo cambió después de guardado: pídalo otra vez, o anote las respuestas a mano; no se anotó nada

## Promesas y suposiciones
error-not-in-scope = «{ $key }» no está en el alcance de esta casa
error-not-in-scope-near = «{ $key }» no está en el alcance de esta casa (¿quiso decir «{ $near }»?)
error-promise-nothing = una promesa cubre al menos una condición
error-promise-cap = una promesa tiene un tope mayor que $0; se dio { $given }
error-promise-terms = el recargo de una promesa está entre 0 y { $most }, su probabilidad entre 0 y 1; se dio { $given }
error-promise-twice = «{ $key }» se nombra dos veces
error-promise-gated = «{ $key }» no se puede prometer: primero mira una persona con licencia, nombrada ({ $until })
error-promise-in-base = «{ $key }» está en el precio base y no es parte de una promesa
error-promise-no-cost = «{ $key }» no tiene un costo propio que prometer
error-suppose-in-base = «{ $key }» ya está en el precio base: no hay nada que suponer
error-suppose-made = la comprobación «{ $check }» ya se hizo en «{ $key }»; suponga mejor otro resultado

## Llaves y lo que firmaron
error-packet-seal-mend = No se fíe de este paquete: pida a la oficina de la empresa su propia copia, o selle la casa otra vez en el dispositivo.
error-key-none = esto no es una llave Ed25519 como la escribe este programa (en inglés: { $said })
error-key-weak = esta llave es una con la que cualquiera podría firmar
error-key-shape = esto no es una firma JSON compacta (JWS) de tres partes
error-key-long = esto es más largo que todo lo que firma este programa
error-key-base64 = una parte ({ $part }) no está en base64url como lo escribe RFC 7515
error-key-header = su encabezado no es como lo escribe este programa (en inglés: { $said })
error-key-algorithm = está firmado con “{ $found }”; solo se acepta EdDSA
error-key-critical = su encabezado tiene “crit”; no se acepta nada crítico
error-key-kind = es “{ $found }”, donde se quiere “{ $wanted }”
error-key-kid = nombra la llave { $found }; la llave de aquí es { $wanted }
error-key-not-the-firms = está firmado con la llave { $key }, que no está entre las de la empresa
error-key-not-the-firms-hint = use las llaves públicas de la empresa que lo firmó, como su oficina las escribió la última vez
error-key-signature = su firma no vale: lo firmado se cambió, o firmó otra llave
error-key-payload = lo que dice no está como lo escribe este programa (en inglés: { $said })
error-key-contents = lo que dice no concuerda (en inglés: { $said })
error-key-signing = la llave no pudo firmar (en inglés: { $said })
error-key-open = otros en esta máquina pueden leer la llave secreta { $path } (modo { $mode })
error-key-open-hint = si nadie más pudo haberla leído, ciérrela con: chmod 600 { $path }; si no, haga una llave nueva y que se revoque la vieja
error-key-again-hint = copie el archivo otra vez de donde se escribió, sin abrirlo en un editor
error-key-file = { $path }: { $said }
error-no-device-key = este dispositivo no tiene llave ({ $path })
error-certificate-other-key = el certificado es para la llave { $found }; este dispositivo sella con { $here }
error-certificate-other-key-hint = escriba una solicitud nueva en este dispositivo, para que quede certificado
error-no-firm-keys = este dispositivo no tiene llaves públicas de una empresa con que comprobar el recibo
error-no-firm-keys-hint = acepte primero el certificado de la oficina: underlath keys accept
error-receipt-no-packet = en este dispositivo no se selló ningún paquete con la suma { $sum }
error-file-there = ya hay ahí otro archivo: { $path }
error-device-unnamed = el dispositivo todavía no tiene nombre
error-device-unnamed-hint = dele uno con --name; así llamará la oficina al dispositivo
error-nothing-revoked = esta oficina no ha revocado nada, así que no hay lista
error-no-time = “{ $text }” no es una hora con su diferencia; escríbala como 2026-04-14T09:30:00-05:00
error-office-no-firm = dé el nombre de la empresa con --firm, de 120 letras como mucho
error-office-no-key = esta oficina todavía no tiene llave ({ $path })
error-office-no-key-hint = haga una: underlath keys new-office --firm NOMBRE
error-office-key-revoked = la llave { $key } está revocada; que el dispositivo haga una nueva y la solicite otra vez
error-office-never-certified = esta oficina nunca dio un certificado a { $what }
error-office-not-vouched = el paquete de “{ $label }” no se aceptó: ningún certificado de esta oficina responde por la llave { $key } que lo selló
error-office-not-vouched-hint = en el dispositivo no se pierde nada: pida su certificado (underlath keys request) y selle la casa de nuevo; si usted sabe de dónde viene el paquete: underlath receive --uncertified
error-office-harmful = no se aceptó { $file }: el escáner de esta oficina encontró en ello algo que hace daño
error-office-harmful-hint = no lo abra en ninguna parte; quien cuida del escáner puede decir qué encontró
error-office-not-scanned = no se aceptó: el escáner { $program } no pudo mirarlo: { $why }
error-office-not-scanned-hint = no se guardó nada de ello; arregle el escáner y envíelo otra vez. Se inicia con la ruta de un archivo y termina con 0 si no encontró nada y con 1 si encontró algo
scanner-not-started = no se pudo iniciar: { $said }
scanner-ended = terminó con { $code }
scanner-broken = no terminó por sí mismo
error-office-register-lost = esta oficina tiene una llave ({ $secret }), pero su base de datos { $path } no sabe nada de ella, ni de lo certificado o revocado
error-office-register-lost-hint = recupere la base de datos de la última copia de seguridad; solo si no hay ninguna: aparte el secreto, haga una llave nueva y certifique otra vez cada dispositivo
error-office-not-taken = el paquete de “{ $label }” no se aceptó: { $said }
error-office-not-taken-hint = en el dispositivo no se pierde nada: cuando esté certificado otra vez, selle la casa de nuevo
error-verify-key = { $path } ({ $name }): { $said }
fault-no-certificate = ninguna empresa respondió por la llave que lo selló
fault-certificate = su certificado no es de esta empresa: { $said }
fault-too-early = su certificado apenas empezó el { $from }
fault-expired = su certificado había terminado el { $until }
fault-receipt = el recibo no es de esta empresa: { $said }
fault-receipt-other = el recibo es de otro paquete, { $sum }
fault-received-before = el recibo dice { $at }, más de un día antes de que se sellara el paquete
fault-list = la lista de revocaciones no es de esta empresa: { $said }
fault-list-old = la lista de revocaciones es la número { $number }; cuando la oficina recibió el paquete ya tenía la número { $then }
fault-revoked = su llave está revocada desde { $since }: { $why }
fault-revoked-unproven = su llave está revocada desde { $since } ({ $why }); que se selló antes, solo un recibo lo podría mostrar

## track, learn

error-learn-elsewhere = { $place } también cambia «{ $key }» de «{ $condition }»
error-learn-elsewhere-hint = Quítelo allí primero, o deje esta línea.
error-learn-meant = ¿Quiso decir «{ $near }»?
error-learn-no-houses = No hay casa de que aprender: ninguna tiene un pronóstico anterior a su primer hallazgo.
error-learn-no-line = No hay línea propuesta «{ $line }»; underlath learn las da.
error-learn-nothing = No se adoptó ninguna línea; nombre al menos una.
error-learn-nothing-proposed = Nada se propone a partir del catálogo tal como está ahora. Abra de nuevo lo que enseñan las casas.
error-learn-no-folder = No hay carpeta para los números propios de la empresa
error-learn-no-folder-hint = Nombre una con --overlay, o dé al programa una carpeta propia.
error-learn-one-file = { $path } es un solo archivo; los números aprendidos son un archivo aparte
error-learn-one-file-hint = Ponga el archivo en una carpeta y nombre la carpeta.
error-learn-other-catalog = La propuesta se hizo con otro catálogo; aprenda otra vez.
error-learn-stopped = El aprendizaje se detuvo por una falla del programa. No se cambió nada.
error-learn-together = «{ $condition }/prior» no cabe junto a lo que el catálogo dice de «{ $other }»: una excluye o implica la otra
error-learn-together-hint = Adopte también «{ $other }/prior» si se propone, o deje esta línea.
error-learned-damaged = { $path } no se puede leer: { $said }
error-learned-damaged-hint = Dice de qué casas aprendió un catálogo. Repóngalo de una copia de respaldo; sin él el historial no puede dejar fuera esas casas.
error-publish-large = Los archivos de la empresa son demasiado grandes para publicarlos: 4 MB como mucho, y 1 MB cada uno.
error-publish-name = «{ $name }» no es un nombre con que un archivo pueda viajar a cada tableta
error-publish-name-hint = Use letras sin acentos, cifras, guiones y puntos, 64 como mucho, y que termine en .toml; las palabras propias van en words/es.
error-publish-nothing = No hay nada que publicar: la empresa no tiene números propios sobre el catálogo original.
error-publish-own = Esta oficina trabaja con un catálogo propio ({ $path }), que ninguna tableta tiene
error-publish-own-hint = Se puede publicar lo que está sobre el catálogo original; ponga sus cambios en una carpeta aparte (overlay).
error-publish-same = Nada ha cambiado desde que se publicó la versión { $number }.
error-catalog-kept = el catálogo que llegó de la oficina no se puede leer aquí: { $said }
error-catalog-sums = los archivos del catálogo publicado no son los que se firmaron
error-catalog-older = la oficina ofrece como nueva la versión { $number } de su catálogo, y este dispositivo tiene la versión { $had }
error-catalog-older-hint = quizá la oficina volvió de una copia de seguridad: que publique otra vez hasta que su número sea mayor
error-catalog-extends = la versión { $number } del catálogo de la oficina se hizo sobre otro catálogo original ({ $theirs }) que el de este programa ({ $ours })
error-catalog-extends-hint = ponga oficina y tableta en la misma versión del programa, y que la oficina publique otra vez
error-catalog-unloadable = la versión { $number } del catálogo de la oficina no forma aquí un catálogo: { $said }
error-catalog-beside = la versión { $number } del catálogo de la oficina no concuerda con lo elegido en este dispositivo: { $said }
error-catalog-beside-hint = deje abierta la elección de códigos en los ajustes de este dispositivo, y busque otra vez
catalog-unused-given = al iniciar el programa se nombró otro catálogo
catalog-unused-shipped = se hizo sobre otro catálogo original que el de este programa; hace falta uno nuevo de la oficina
catalog-unused-own = este dispositivo tiene números propios en { $folder }, que van antes; retírelos, y se usará

# La línea con la oficina
error-no-link = esto no es un enlace de una oficina
error-link-part = no se puede leer la parte «{ $part }» del enlace
error-link-hint = tome la línea entera que empieza con «underlath-office:», como la muestra la oficina
error-not-paired = este dispositivo no está enlazado con una oficina
error-not-paired-hint = pida a un dueño de la oficina que lo invite; después: underlath pair ENLACE
error-no-such-packet = ningún paquete de esta casa tiene la suma { $packet }
error-no-code = en esta imagen no hay un código QR que se pueda leer
error-no-code-hint = tómela de más cerca y de frente, sin reflejo en la pantalla; o pegue el enlace como texto
error-no-line = la oficina no contesta: { $said }
error-no-line-hint = vea si la oficina está abierta y si este dispositivo está en la misma red
error-stranger = en la dirección de la oficina contesta otro: el certificado no es el del enlace
error-stranger-hint = no se envió nada. Compare la suma que imprime la oficina; si hizo un certificado nuevo, enlace otra vez
error-office-said = la oficina dice: { $said }
sending-acknowledged = recibido { $when } por { $firm }
sending-receipt = el recibo de la oficina no vale; nada se da por recibido
sending-changed = el archivo del paquete cambió mientras se enviaba; selle la casa de nuevo
sending-said = { $message }: { $hint }
sending-line = la oficina no contesta; se intenta otra vez por sí solo
sending-strange = lo que contesta no es una oficina; se intenta otra vez por sí solo
