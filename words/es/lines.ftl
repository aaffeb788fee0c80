# Líneas de la línea de comandos.

as-it-is = { $text }

## new, record, note, photo
new-done = abierta { $survey }  { $label }
record-done = { $item }  { $answer }
record-corrected = { $item }  { $answer } (corrige lo que había; se conservan las dos)
record-complaint = vuelva a mirar: { $said }
note-done = anotado  { $text }
photo-taken-in = { $photo }  { $name } recibida
photo-known = { $photo }  { $name } ya estaba en este levantamiento
photo-complaint = aviso: { $said }

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
next-no-use = no se preguntan, porque ya nada depende de ellas: { $items }
next-coverage = reunido { $share } de lo que pueden valer las respuestas (más o menos { $error })
next-look = Qué revisar ahora
next-photos = fotos que aún faltan: { $items }
next-nothing = nada más vale sus minutos
next-worth = { $n ->
    [one] { $label }: vale unos { $value } por un minuto ({ $how }, { $who })
   *[other] { $label }: vale unos { $value } por { $n } minutos ({ $how }, { $who })
}
next-could-change = podría cambiar: { $conditions }
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
seal-no-pages = sin páginas para leer: este programa se construyó sin ellas
verify-whole = { $path }: entero, y sin cambios desde que se selló si su suma es la que se anotó entonces
verify-sum = sha256
verify-house = casa
verify-packet = { $label } (paquete { $number })
verify-sealed = sellado
verify-by = { $when } por { $by }
verify-holds = contiene
verify-held = { $n } entradas del registro, { $photos } fotos, evaluación { $sum }
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
