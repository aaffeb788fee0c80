# Las pantallas.

app = Underlath
reading = Leyendo el registro…
houses = Casas
on-device = en este dispositivo
houses-heading = { $n ->
    [0] Todavía no hay casas en este dispositivo
    [one] Una casa en este dispositivo
   *[other] { $n } casas en este dispositivo
}
houses-none-how = Empiece la primera: bastan el nombre y el trabajo previsto.
last-touched = último cambio: { $when }
answered-of = { $answered } de { $wanted } respondidas
photos = { $n ->
    [one] 1 foto
   *[other] { $n } fotos
}
not-assessed = pronóstico sin fijar
p80 = P80 { $money }
failed-heading = No se pudo leer el registro
again = Intentar otra vez
field-gone = El programa detrás de esta página se terminó. Lo respondido antes está guardado.
field-gone-how = Inicie “underlath field” otra vez y abra la dirección que imprime.
foot-label = Siempre a mano
walk = El recorrido
odds-and-money = Pronóstico y dinero
odds-short = Pronóstico
walk-done = Todas las preguntas están respondidas, { $wanted } en total
walk-done-disagree = { $n ->
    [one] Todas las preguntas están respondidas, { $wanted } en total, y una tiene respuestas que no coinciden
   *[other] Todas las preguntas están respondidas, { $wanted } en total, y { $n } tienen respuestas que no coinciden
}
walk-open = { $open ->
    [one] Queda una pregunta abierta
   *[other] Quedan { $open } preguntas abiertas
}
walk-open-disagree = { $open ->
    [one] { $n ->
        [one] Queda una pregunta abierta, y una tiene respuestas que no coinciden
       *[other] Queda una pregunta abierta, y { $n } tienen respuestas que no coinciden
    }
   *[other] { $n ->
        [one] Quedan { $open } preguntas abiertas, y una tiene respuestas que no coinciden
       *[other] Quedan { $open } preguntas abiertas, y { $n } tienen respuestas que no coinciden
    }
}
walk-bar = { $answered } de { $wanted } preguntas respondidas
cant-tell = No se puede saber
could-not-reach = No se pudo llegar
open-row = abierta: sin preguntar o sin respuesta
open-row-answer = { $answer }; abierta: sin preguntar o sin respuesta
disagree-row = Estas respuestas no coinciden
against = no es igual a
entered = escrito como { $entered }
by-at = { $by }, { $at }
odds-none = Las respuestas no concuerdan
carry = Reserve { $money } para lo desconocido y alcanzará 8 de cada 10 veces
money-rule = Dinero para lo desconocido
days-rule = Días de más
even-odds = mitad y mitad
eight-in-10 = 8 de 10 por debajo
nine-in-10 = 9 de 10 por debajo
twenty-dots = Veinte puntos, cada uno una posibilidad de veinte. Dieciséis quedan a la izquierda de P80.
drawn-times = Sorteado { $n } veces con las probabilidades tal como están; P80 es exacto a ±{ $money }.
parts-not-added = Las partes no se suman: los puntos son de la suma.
on-average = { $n ->
    [one] En muchas casas como esta, { $money } y 1 día en promedio.
   *[other] En muchas casas como esta, { $money } y { $n } días en promedio.
}
weigh-most = { $n ->
    [one] La que más pesa
    [5] Las cinco que más pesan
   *[other] Las { $n } que más pesan
}
weigh-average = en promedio
weigh-if-there = si está
from-to = { $low } a { $high }
conditions-heading = Lo que probablemente hay adentro
in-ten = { $n } de 10
dot-note = Punto lleno: la estimación. Punto abierto: la frecuencia de base antes de cualquier respuesta. Banda: dónde quedaría la estimación, 8 de cada 10 veces, si la frecuencia de base errara tanto como permite lo que la respalda; las respuestas se toman como son. No haber visto nada nunca quiere decir que no haya nada.
if-there = Si está ahí: de { $low } a { $high }, lo más probable { $likely }.
frozen-at = Fijado por última vez el { $when }: { $money } a 8 de 10, catálogo { $catalog }, motor { $engine }. Sellar también lo fija.
because = { $n ->
    [one] Qué lo movió: una respuesta
   *[other] Qué lo movió: { $n } respuestas
}
dot-got-here = Cómo llegó el punto hasta aquí
base-rate = Frecuencia de base de casas como esta
nothing-moved = Frecuencia de base de casas como esta; ninguna respuesta lo movió.
taken-out = { $n ->
    [one] Retirado: { $place }; se conserva 1 respuesta
   *[other] Retirado: { $place }; se conservan { $n } respuestas
}
no-rows = Todavía no hay nada anotado en esta casa, y ninguna pregunta importa antes de conocer el trabajo previsto.
fits = Qué cabe
fits-none = No se midió nada que sirva para un cálculo
fits-within = Nada de lo medido alcanza ni pasa un valor de tabla
fits-within-open = { $open ->
    [one] Nada de lo medido alcanza ni pasa un valor de tabla, y un resultado aún no se puede decir
   *[other] Nada de lo medido alcanza ni pasa un valor de tabla, y { $open } resultados aún no se pueden decir
}
fits-beyond = { $n ->
    [one] Un resultado alcanza o pasa un valor de tabla
   *[other] { $n } resultados alcanzan o pasan un valor de tabla
}
fits-beyond-open = { $n ->
    [one] { $open ->
        [one] Un resultado alcanza o pasa un valor de tabla, y uno aún no se puede decir
       *[other] Un resultado alcanza o pasa un valor de tabla, y { $open } aún no se pueden decir
    }
   *[other] { $open ->
        [one] { $n } resultados alcanzan o pasan un valor de tabla, y uno aún no se puede decir
       *[other] { $n } resultados alcanzan o pasan un valor de tabla, y { $open } aún no se pueden decir
    }
}
fits-how = Calculado con las respuestas tal como están. Toque uno para ver su dibujo, su cuenta y quién decide.
stands-within = dentro
stands-near = cerca
stands-beyond = más allá
stands-ask = pregunte en el lugar
stands-open = todavía no se sabe
stands-quantity = calculado
stands-not-yet = todavía sin preguntar
stands-by-hand = con medidas
all-fits = Todos los cálculos
from-walk = Del recorrido
input-missing = Sin respuesta: respóndala ahora
by-hand = Con las medidas escritas abajo. Nada de esto se anota.
as-walked = Volver a lo que dice el recorrido
other-figures = Probar otras medidas
figures = Medidas
figures-how = Nada de lo que se escribe aquí se anota. Tras una longitud puede ir una tolerancia: 19 3/8 ± 1/8.
more-figures = { $n ->
    [one] Una más que se puede dar
   *[other] { $n } más que se pueden dar
}
else-taken = si se omite, se toma { $what }
left-out = se omite
work-out = Calcular
not-known = No se sabe: { $what }.
one-change = Un cambio a la vez
how-reckoned = Cómo se calculó
held-against = Comparado con
assumed-heading = Supuesto, porque nadie lo midió ni lo eligió

## Se empieza una casa
start-a-house = Empezar una casa
start-takes = unos 2 minutos
left-off = Donde se quedó
left-off-at = Donde se quedó, { $when }
go-on = Seguir el recorrido
go-on-done = Abrirla
others = Las otras
new-house = Una casa nueva
new-house-heading = ¿Qué casa es y qué está previsto?
new-house-kept = se guarda al empezar
house-label = Nombre
house-label-how = calle o nombre del trabajo
who-walks = Quién recorre
built = Año
built-how = de construcción, hasta donde se sepa
built-sure = ¿Qué tan seguro es el año?
known = seguro
no-idea = ni idea
year-none = todavía sin año
year-said = { $within ->
    [0] construida en { $year }
   *[other] construida hacia { $year }, { $within } años más o menos
}
contract = Precio del contrato
contract-how = en dólares; puede esperar
planned = ¿Qué está previsto? Tóquelo, aunque sea un tal vez.
planned-short = Previsto
planned-note = Lo previsto decide qué se pregunta. Se puede cambiar en su tarjeta del recorrido.
chosen = { $n ->
    [one] 1 elegido
   *[other] { $n } elegidos
}
start-walk = Empezar el recorrido
start-needs-label = primero póngale nombre

## El recorrido, tarjeta por tarjeta
places = Lugares
look-next = Mirar ahora
position = { $n } de { $wanted } que importan ahora
foot-look = { $minutes } min, unos { $money }
foot-weighing = calculando…
foot-trouble = respuestas por aclarar
foot-no-look = nada vale sus minutos
touch-all = Toque todo lo que valga.
next-card = { $n ->
    [one] Esa, y sigue
   *[other] Esas { $n }, y sigue
}
next-one = Sigue
could-not-reach-why = No se pudo llegar…
back = Volver
pass = Pasar
take-back = Deshacer lo último
take-back-what = Lo último hecho: { $what } { $said }
note = { $n ->
    [0] Nota
    [one] Nota (1)
   *[other] Nota ({ $n })
}
note-label = Una nota sobre esta pregunta
note-keep = Guardar la nota
kept = Guardado: { $said }
stands = Respondido:
disagree-card = Se dijeron cosas distintas. Toque lo que vale; las otras respuestas quedan en el registro.
why-asked = Por qué se pregunta.
photo-needed = Hace falta una foto.
photo-helps = Una foto ayudaría.
walk-at-end = No queda nada por preguntar que importe
walk-at-end-how = { $wanted ->
    [one] La única pregunta que importa está respondida. Vea qué falta antes de salir.
   *[other] Las { $wanted } preguntas que importan están respondidas. Vea qué falta antes de salir.
}
reach-because = No se pudo llegar, porque…
reach-locked = Cerrado con llave o atornillado
reach-furniture = Hay muebles delante
reach-high = Muy alto o muy estrecho
reach-said-no = La familia dijo que no
reach-danger = Con corriente o peligroso de abrir
reach-time = No alcanzó el tiempo
reach-own = Otra razón, en palabras
reach-back = Volver a la pregunta
reach-kept = Se guarda como respuesta. La oficina y los oficios ven que aquí nadie miró.

## Medir
units = Unidades
inch = pulgadas
feet = pies
then-inches = pies, y luego pulgadas
rub-out = borrar
type = en palabras
type-how = Como usted lo escribiría o diría: 1' 7 3/8, 19 3/8, 492 mm
good-to = exacto a
lower = más bajo
point = punto decimal
drawn-reading = { $what } Dibujado: { $reading }
drawn-not-to-scale = El dibujo muestra qué se mide; no está a la escala de esta casa.
tape-said = En la cinta: { $reading }
outside = { $said }. Mida otra vez; si es así, guárdelo.
keep-it = Es así: guardarlo

## Lugares
left-of = quedan { $left } de { $wanted }
places-heading = { $n ->
    [0] Todos los lugares están listos
    [one] Queda una pregunta
   *[other] Quedan { $n } preguntas
}
places-drawn = { $n ->
    [one] Un corte de una casa con una parada del recorrido
   *[other] Un corte de una casa con las { $n } paradas del recorrido
}
stop-here = aquí, quedan { $n }
stop-left = quedan { $n }
stop-done = listo
stop-done-photos = { $n ->
    [one] listo, falta una foto
   *[other] listo, faltan { $n } fotos
}
answered-row = respondida
place-another = Otro igual…
place-name = Sobre qué o junto a qué está
place-add = Agregarlo
place-rename = Su nombre
place-keep-name = Dejar este nombre
place-other-name = Otro nombre…
place-out = Retirarlo…
place-out-answers = { $n ->
    [one] En «{ $place }» hay una pregunta respondida. Sale del recorrido y del pronóstico; la respuesta se conserva y vuelve con el lugar.
   *[other] En «{ $place }» hay { $n } preguntas respondidas. Sale del recorrido y del pronóstico; las respuestas se conservan y vuelven con el lugar.
}
place-out-empty = En «{ $place }» no hay nada anotado. Sale del recorrido y del pronóstico.
place-out-now = Retirarlo
place-stays = Se queda
place-put-back = Volver a ponerlo
not-now = Ahora no
stop-earlier = Antes
stop-later = Después
stop-earlier-of = Recorrer antes: { $place }
stop-later-of = Recorrer después: { $place }
record = Lo anotado

## Fotos
photos-leaf = Fotos
photos-heading = { $n ->
    [0] Todavía no hay fotos de esta casa
    [one] Una foto de esta casa
   *[other] { $n } fotos de esta casa
}
photos-of = Para: { $question }
photos-all = { $n ->
    [0] Todas las fotos
    [one] Todas las fotos (1)
   *[other] Todas las fotos ({ $n })
}
photos-no-place = La casa
photo-take = Tomar una foto
photo-files = Elegir archivos
photo-again = Tomarla otra vez
photo-again-how = La primera también queda en el registro.
photos-taken = Recibidas ahora
photos-coming = { $kept } de { $of } guardadas
photos-stop = Parar después de esta
photo-kept = Guardada: { $name }
photo-was-there = Ya estaba: { $name }
photo-not-kept = No se guardó: { $name }
photo-open = { $name }: abrirla para marcar o medir
photo-no-picture = El archivo está guardado; aquí no se puede mostrar.
photo-shows-more = { $n ->
    [one] y una pregunta más
   *[other] y { $n } preguntas más
}
photo-marks = { $n ->
    [0] sin marcas
    [one] 1 marca
   *[other] { $n } marcas
}
photo-drawn = { $n ->
    [0] Foto: { $what }
    [one] Foto con una marca: { $what }
   *[other] Foto con { $n } marcas: { $what }
}

## Marcas en una foto
mark-tools = Qué dibujar
mark-ring = Círculo
mark-arrow = Flecha
mark-dimension = Medida
mark-words = Texto
mark-paper = Hoja
mark-ring-how = Rodéelo con un círculo: toque el centro y luego el borde
mark-arrow-how = Señálelo: toque donde empieza la flecha y luego la punta
mark-dimension-how = Toque los dos extremos y escriba lo que dijo la cinta
mark-words-how = Toque donde empieza el texto y escríbalo
mark-ring-middle = Centro
mark-ring-edge = Borde
mark-arrow-tail = Inicio
mark-arrow-head = Punta
mark-end-1 = Extremo 1
mark-end-2 = Extremo 2
mark-words-start = Inicio del texto
mark-middle = Poner en la foto: { $name }
mark-left = Mover a la izquierda
mark-up = Mover arriba
mark-down = Mover abajo
mark-right = Mover a la derecha
mark-words-what = El texto, una línea
mark-tape-said = Lo que dijo la cinta.
mark-keep = Guardar esta marca
mark-anew = Poner los puntos otra vez
mark-rub-out = Borrar la última
mark-put-back = Volver a ponerla
mark-never = La foto misma nunca se cambia. Las marcas van encima; la que se borra queda en el registro.

## Medir en una foto
sheet-leaf = Medida desde una foto
sheet-measure = Medir con una hoja de papel
sheet-which = Qué hay plano en la foto
sheet-letter = Carta
sheet-a4 = A4
sheet-own = Otro tamaño
sheet-lying = Lado largo primero
sheet-width = Primer lado, esquina 1 a 2
sheet-height = Otro lado, esquina 2 a 3
sheet-corner = Toque la esquina { $n } de la hoja
sheet-end = Toque el extremo { $n } de lo que se mide
sheet-set = Las cuatro esquinas y los dos extremos están puestos
sheet-corner-name = Esquina { $n }
sheet-end-name = Extremo { $n }
sheet-how = Dé la vuelta a la hoja esquina por esquina, el lado corto primero. Luego toque los dos extremos de la medida. Toque un punto para verlo más grande; muévalo con el dedo o con las flechas.
sheet-came-to = { $length }, más o menos { $tolerance }
sheet-from-photo = { $metric }, desde la foto
sheet-distance = Tomada desde unos { $feet } pies { $inches } pulg.
sheet-distance-check = Si usted estaba en otro lugar, no confíe en la medida.
sheet-focal = La foto no dice su lente; se tomó la de un teléfono.
sheet-plane = Vale solo en la cara donde está la hoja. Detrás o delante de ella, use la cinta.
sheet-answers = Es la respuesta a
sheet-keep = Guardar esta medida
sheet-to-marks = Marcas en esta foto

## Mirar ahora
weighing = Calculando qué queda por mirar…
broken-off = El cálculo se interrumpió una y otra vez
next-heading = { $n ->
    [0] Ninguna mirada vale sus minutos ahora
    [one] Una mirada vale sus minutos
   *[other] { $n } miradas valen sus minutos
}
next-trouble = Algunas respuestas no pueden ser todas ciertas
looks-laid = { $n ->
    [one] Una mirada, { $minutes } minutos
   *[other] { $n } miradas una tras otra, { $minutes } minutos
}
minutes = { $n } min
min = min
worth = vale
if-no = si no
if-yes = si sí
change-said = { $name }: ahora unas { $now } de cada 10, { $yes } si se ve, { $no } si no se ve
look-how = { $how }; { $who }
look-made = Ya miré
look-made-of = Ya miré: { $what }
look-what-shown = ¿Qué se vio?
look-shows-it = Está ahí
look-shows-not = No se vio nada
look-unclear = No se puede saber
look-nothing-seen = No haber visto nada nunca quiere decir que no haya nada; cuánto baja el pronóstico depende de la mirada.
look-back = Todavía no miré
not-while = No mientras: { $what }
looks-note = La cifra es lo que la mirada vale en promedio en un mejor precio, menos sus minutos y los remiendos. Las flechas muestran adónde movería el punto un sí o un no.
gathered = De lo que pueden valer las respuestas se ha reunido { $share }.
gathered-short = reunido { $share }
ask-rather = Mejor pregunte:
answer-it = Responder

## Antes de salir
leaving = Antes de salir
leaving-heading = { $n ->
    [0] Nada se contradice y nada falta
    [one] Queda una cosa abierta
   *[other] Quedan { $n } cosas abiertas
}
leaving-ask = Vale la pena preguntar y falta
leaving-disagree = Se dijeron cosas distintas
leaving-clash = Respuestas que no van juntas
leaving-implausible = Medido fuera de lo posible
leaving-ruled-out = Respondido, aunque otras respuestas lo descartan
leaving-photos = Fotos que faltan
look-again = Mirar otra vez
look-other = Mirar la otra
measure-again = Medir otra vez
clash-chance = En vista de todas las demás respuestas, la primera tiene una probabilidad de { $chance }.
count-answers = respuestas
count-measurements = medidas
count-photos = fotos
count-notes = notas

## Pronóstico
assessing = Calculando pronóstico, dinero y días…
freeze = Fijar este pronóstico
freezing = Fijando pronóstico, dinero y días…
frozen-none = Calculado con las respuestas tal como están; al sellar queda fijado.
why-coming = Calculando qué respuestas lo movieron…

## Sellar y entregar
seal = Sellar y entregar
seal-heading-none = Todavía sin sellar
seal-heading-going = Sellando el paquete
seal-heading-whole = El paquete { $number } contiene todo lo anotado
seal-heading-since = { $n ->
    [one] Se anotó una cosa después del paquete { $number }
   *[other] Se anotaron { $n } cosas después del paquete { $number }
}
seal-how = Al sellar se evalúa la casa como está, se revisan cada respuesta y cada foto y se escribe un archivo. El registro sigue: selle de nuevo cuando se agregue algo.
seal-for-office = El paquete es para su oficina. Contiene las fotos como las tomó la cámara, con todo lo que la cámara escribió en ellas; no lo pase a otras personas.
seal-now = Sellarlo
seal-going = foto { $n } de { $of }
seal-writing = evaluando y escribiendo las páginas
seal-stop = Parar. No se pierde nada
left-open = Queda abierto
left-open-none = No queda nada abierto.
open-not-asked = sin preguntar
open-no-photo = sin foto
open-two-answers = dos respuestas
open-clash = no concuerda con otra respuesta
open-implausible = fuera de lo creíble
open-ruled-out = otras respuestas lo descartan
packet-number = paquete { $number }
packet-sealed-at = sellado { $when }
packet-not-sealed = sin sellar
packet-files = archivos adentro
packet-size = tamaño
packet-megabytes = { $n } MB
packet-sum = Su suma, SHA-256
packet-sum-how = Anótela: es la de este paquete y de ningún otro. Quién lo selló lo dice el sello que lleva dentro, con la clave de este dispositivo.
household-in = Páginas para la familia en
household-signs = La familia firma antes su página
sign-heading = Para que la familia lea y firme
sign-page-of = La página de la familia, hoja { $n } de { $of }
sign-words = El texto de esta página
sign-name = Nombre
sign-field = Firme aquí
sign-no-hand = Quien no pueda dibujar aquí firma solo con su nombre.
sign-rub-out = Borrar
sign-seal = Sellar con esta firma
sign-without = Sellar sin firma
packet-signed-by = firmado por
packet-gone = El archivo ya no está donde se selló: { $path }
packets-before = Paquetes anteriores
packets-kept = Guardado en este dispositivo: { $path }
hand-over = Entregar
hand-over-packet = Copiar el paquete a sus archivos
hand-over-pages = Copiar las páginas, para leer o imprimir
hand-over-what = Una carpeta con un documento para cada lector: la oficina, cada oficio al que le toca la casa, la familia, órdenes de cambio probables; y las tablas para una hoja de cálculo.
handed-over = La copia está en { $path }
no-firm = Todavía no aparece ninguna empresa en las páginas.
house-packet = { $since ->
    [0] paquete { $number } sellado
   *[other] paquete { $number } sellado, { $since } anotadas después
}
house-demolition = demolición declarada

## Demolición: el fin del recorrido
demolition = Demolición
declare-demolition = Declarar la demolición
declare-when = Declárela cuando esté por abrirse la primera pared, el primer piso o el primer cajón (soffit).
declare-ends = El recorrido termina. Lo contestado, medido, fotografiado y apuntado se puede leer, y nada se agrega, se cambia ni se deshace.
declare-findings = Lo que aparece detrás de la primera abertura es un hallazgo. Se anota junto al pronóstico, en la oficina, y nunca aquí.
declare-whole = Vale para toda la casa: una pared abierta dice algo de las que siguen cerradas.
declare-since = { $n ->
    [one] Una entrada no está en el último paquete. Séllela primero: un paquete sellado después de la demolición nunca se juzga.
   *[other] { $n } entradas no están en el último paquete. Séllelas primero: un paquete sellado después de la demolición nunca se juzga.
}
declare-not-sealed = Esta casa todavía no se ha sellado. Séllela primero y entréguela: un paquete sellado después de la demolición nunca se juzga.
declare-words = Qué se abre, y dónde
declare-may-be-empty = (puede quedar vacío)
declare-sure = ¿Terminar el recorrido de “{ $label }”?
declare-yes = Sí, empieza la demolición
declare-not-yet = Todavía no
demolition-over = El recorrido de esta casa terminó
demolition-now = Qué hacer ahora
demolition-findings = Anote lo hallado junto al pronóstico: en la oficina, en la hoja Hallazgos de esta casa, o con “underlath finding”.
demolition-read = El recorrido queda aquí como estaba, para leerlo: cada respuesta, foto y nota.
demolition-judged = La casa se juzga por lo que su oficina tenía antes. Un paquete sellado desde ahora lleva la declaración y nunca se juzga.
set-aside = { $n ->
    [one] Anotado más tarde y puesto aparte: se conserva y no cuenta en ninguna parte
   *[other] Anotado más tarde y puesto aparte, { $n } entradas: se conservan y no cuentan en ninguna parte
}
demolition-mistake = ¿Se declaró por error?
demolition-mistake-how = Mientras no se haya sellado nada desde entonces, la declaración se puede retirar. Las dos quedan en el registro, con el motivo.
demolition-stands = La casa se selló desde entonces y quizá la oficina ya lo sabe: la declaración queda.
withdraw = Retirar la declaración
withdraw-why = Por qué al final no se abrió nada
not-withdraw = Dejarla como está
withdrawn-by = { $by } retiró una declaración de demolición, { $when }: { $reason }
over-declared = { $by } declaró la demolición, { $when }.
over-means = El recorrido terminó; lo que se ve ahora es un hallazgo.
over-now = Qué hacer ahora
over-not-answered = No se contestó en el recorrido.
over-no-looks = Ya no hay revisiones: se declaró la demolición
over-gathered = Lo que reunió el recorrido
over-seal = Se declaró la demolición. Un paquete sellado ahora lo dice, y su pronóstico nunca se juzga.
foot-over = el recorrido terminó

## Ajustes
settings = Este dispositivo
settings-seldom = se ajusta una vez, casi nunca cambia
settings-heading = Cómo trabaja este dispositivo
set-firm = Empresa
set-firm-how = Aparece en cada página de un paquete.
set-address = Renglón debajo
set-address-how = Calle y teléfono, al principio de lo que sale de la empresa.
set-by = Quién recorre
set-by-how = Aparece junto a cada respuesta desde ahora.
set-device = Nombre de este dispositivo
set-key = Llave con que sella
set-device-how = Distingue las tabletas de la empresa. Los paquetes llevan su número, { $id }.
set-codes-how = Cambia límites en el fregadero, las perforaciones, el gas y el panel. Rige el código local como fue adoptado y enmendado: pregunte en el departamento de construcción.
codes-heading = Reglas del lugar
codes-open = sin elegir
codes-open-how = Se consulta cada libro; donde difieren, la respuesta es «pregunte en su localidad».
codes-fixed = lo fija el catálogo de la empresa
codes-one = el único libro que hay aquí
set-keypad = El teclado empieza en
set-tolerance = Qué tan cercana es una lectura, si no dice otra cosa
set-words = Idioma
set-light = Luz
as-device = como el dispositivo
light-paper = papel
light-dark = oscura
settings-kept = Guardado aquí
settings-houses = { $n ->
    [one] 1 casa
   *[other] { $n } casas
}
settings-folder = Todo está en { $path } y solo sale cuando usted lo entrega.
settings-made = { $software }, catálogo { $catalog }
back-to-walk = Volver al recorrido

## Ayuda
help = Ayuda
guide-heading = Cómo recorrer una casa con esto
guide-walk = Una tarjeta a la vez
guide-walk-text = Al tocar una respuesta, queda en el disco antes de que aparezca la tarjeta siguiente. No hay que guardar nada. Un programa que se cerró se abre de nuevo en la misma tarjeta con todo contestado.
guide-walk-order = Las preguntas vienen en el orden del recorrido, y solo mientras algo dependa de ellas: la cuenta de arriba baja cuando las respuestas descartan preguntas. «Lugares» muestra toda la casa y lleva a cualquier tarjeta.
guide-unsure = Cuando no se puede saber
guide-unsure-text = «No se puede saber» y «no se pudo llegar» también son respuestas. Se guardan, aparecen en el paquete, y las probabilidades quedan donde estaban en vez de adivinar.
guide-measure = Medir
guide-measure-text = Marque las pulgadas enteras y luego agregue mitades de pulgada hasta que sea correcto: ½ y ⅛ hacen ⅝. También sirven pies, milímetros y longitudes escritas. Diga qué tan cercana es la lectura: eso decide si un límite se cumple, no se cumple o está demasiado cerca para saberlo.
guide-photos = Fotos
guide-photos-text = Una foto pertenece a la tarjeta en la que se tomó. Las marcas se dibujan a su lado y nunca dentro de ella. Una hoja de papel plana sobre una superficie da otras longitudes en esa superficie.
guide-next = Mirar ahora
guide-next-text = Lo que vale sus minutos ahora: cuánto podría cambiar una mirada el precio de no saber, y cuánto tarda. Diga qué mostró y la lista se evalúa de nuevo.
guide-odds = Probabilidades
guide-odds-text = Cada fila es una regla de 0 a 10. El punto dice cuántas de diez casas como esta lo tendrían, la banda cuánto puede errar. Los puntos abiertos son lo usual antes de ver nada. Es una estimación por lo visto y preguntado, nunca un hallazgo.
guide-money = Dinero
guide-money-text = P80 es lo que hay que prever para que lo desconocido alcance ocho de diez veces, y falte dos. Los montos de cada condición no suman eso, porque rara vez vienen todas juntas.
guide-seal = Salir y sellar
guide-seal-text = «Antes de salir» nombra lo que no concuerda, lo que falta y lo que todavía vale preguntar. Sellar escribe un paquete para la oficina. Se puede parar, y repetir cuando se anote más.
guide-back = Deshacer
guide-back-text = Los últimos cincuenta actos se pueden deshacer, el último primero. Lo anotado nunca se borra: al lado queda una corrección.
guide-decides = Quién decide
guide-decides-text = Nada de esto es una aprobación. Electricidad, gas, estructura, plomo, asbesto, moho, agua y drenaje los decide la persona con licencia nombrada junto al resultado, y rige el código local.
guide-private = Privado
guide-private-text = No hay cuenta ni conteo, y nada se pide a ninguna red sino a la oficina con que este dispositivo está enlazado. Los registros están en este dispositivo hasta que usted entrega un paquete o lo envía allá. Las copias para otros no llevan el lugar donde se tomó una foto.
guide-keys = Con teclado
guide-keys-text = Tab va de tecla en tecla, Intro o Espacio la oprime. Después de una respuesta se lee la pregunta siguiente y Tab empieza ahí.

## La oficina de esta tableta
send-the-office = la oficina
office-heading = La oficina
office-none = Esta tableta no está emparejada con ninguna oficina. Los paquetes se llevan a mano.
office-firm = Empresa
office-address = Dirección
link-fingerprint = Suma de su certificado
office-paired = Allí se llama { $device }, desde { $when }.
pair-photo = Fotografiar el código de la oficina
pair-link = O pegar su enlace
pair-read = Leer el enlace
pair-compare = ¿Es esta su oficina?
pair-compare-how = Compare la suma con la que imprimió el programa de la oficina. Si no son iguales, allí responde otro.
pair-name = Cómo se llama allí esta tableta
pair-now = Sí, emparejar
pair-not = No
unpair = Desemparejar…
unpair-really = Nada más se envía a { $firm }. Los paquetes que ya están allí se quedan, y todos se quedan aquí.
unpair-now = Desemparejar
unpair-not = Seguir emparejada
fetch-catalog = Buscar un catálogo nuevo
fetch-nothing-new = La oficina no tiene nada más nuevo.
taken-catalog = Su catálogo
taken-version = Versión { $number }
taken-since = En uso aquí desde { $when }.
taken-kept = Guardado aquí desde { $when }.
taken-by =
    { $houses ->
        [one] Publicado por { $by }, { $when }; una casa está en sus números.
       *[other] Publicado por { $by }, { $when }; { $houses } casas están en sus números.
    }
taken-none = No se publicó ninguno para esta tableta; trabaja con el original.
taken-unused = No está en uso:
not-taken = El último no se tomó:
send-now = Enviarlo a la oficina ({ $size })
send-again = Seguir enviando
send-how = Sigue por sí solo con mala conexión, y no empieza dos veces. El paquete se queda aquí de todos modos.
send-unpaired = Para enviarlo, empareje primero esta tableta con su oficina.
send-waiting = Espera la conexión con { $firm }
send-going = En camino a { $firm }
send-acknowledged = { $firm } lo tiene y firmó un recibo
send-refused = { $firm } no lo aceptó
send-share = { $sent } de { $of } enviados
