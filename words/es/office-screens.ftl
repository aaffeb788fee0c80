# Las pantallas de la oficina.

the-office = la oficina
office-gone = El programa de la oficina no contesta. Lo que se anotó antes está guardado.
office-gone-how = Vea si está en marcha y si este equipo lo alcanza, y pruebe otra vez.
packets = Paquetes
people = Personas
findings = Hallazgos
compared = Comparado
me = Yo

## Entrar
sign-in = Entrar
sign-in-heading = ¿Quién está al escritorio?
sign-out = Salir
name = Nombre
password = Contraseña
set-up-first = Esta oficina todavía no está preparada. Abra el enlace que su programa escribió al arrancar.
set-up = Preparar la oficina
set-up-heading = Preparar esta oficina
set-up-how = Este enlace sirve una vez. Quien lo usa es el primer propietario: los propietarios agregan a los demás y dicen qué puede cada quien.
firm = Empresa
firm-how = Como aparece en recibos y certificados.
your-name = Su nombre
name-how = Aparece junto a cada hallazgo que anote.
password-how = Al menos { $n } letras; sirven varias palabras que no vayan juntas. No hay regla de números ni de signos.
password-again = Otra vez
password-differs = Las dos contraseñas no son iguales. Escriba las dos de nuevo.
password-other = Otra contraseña
password-old = La de hasta ahora
password-new = La nueva
password-change = Cambiarla
password-changed = La contraseña está cambiada. Vale desde ahora.
language = Idioma de esta página

## Segundo factor
second-factor = Segundo factor
second-what = Un segundo factor es un código de seis cifras de una aplicación de su teléfono. Quien averigua su contraseña no entra sin él.
second-has = Usted tiene uno: al entrar se pide su código junto a la contraseña.
second-wanted = Esta oficina pide a todos un segundo factor. Prepare el suyo; hasta entonces no se muestra nada más.
second-begin = Preparar uno
second-scan = Escanee esto con una aplicación para tales códigos, o escriba allí el secreto. Después dé el código que muestra.
second-picture = Un código para escanear
second-secret = Secreto
second-until = Espera su código diez minutos.
second-code = Código
second-code-how = Seis cifras, que sirven medio minuto y una vez.
second-confirm = Este es el código
second-another = Preparar otro teléfono
second-drop = Quitar mi segundo factor
second-lost = Sin el teléfono, un propietario le quita el segundo factor; al último propietario le da otra contraseña quien cuida la máquina de la oficina.
second-set = El segundo factor está preparado. Sus otras sesiones terminaron.
second-dropped = Ya no tiene segundo factor.
password-now = Su contraseña

## Sesiones
sessions-heading = Dónde ha entrado
session-here = este navegador
session-from = desde { $at }
session-since = desde el { $when }
session-seen = usada por última vez el { $when }
session-end = Terminar
sessions-end = Terminar todas menos esta
sessions-how = Para terminar una se pide su contraseña.
sessions-ended = Terminadas.

## Personas
people-heading =
    { $n ->
        [one] Aquí trabaja una persona
       *[other] Aquí trabajan { $n } personas
    }
here-since = desde el { $when }
role = Puede
role-of = Qué puede { $name }
role-estimator = estimador
role-office = oficina
role-reviewer = revisor
role-owner = propietario
role-estimator-how = Lee paquetes, casas y comparaciones.
role-office-how = Lee, y entrega paquetes.
role-reviewer-how = Lee, entrega paquetes y anota hallazgos.
role-owner-how = Todo eso, y dice quién trabaja aquí.
is-locked = Bloqueada por demasiadas contraseñas equivocadas.
unlock = Desbloquear
remove-person = Quitar…
remove-really = { $name } ya no podrá entrar; lo que anotó se queda.
remove-now = Quitar
stays = Se queda
add-heading = Alguien nuevo
add-person = Agregar
password-first = Primera contraseña
password-first-how = Al menos { $n } letras. Entréguela en persona; quien entre con ella debe elegir la suya.
password-show = Mostrarla
first-password = Otra persona eligió esta contraseña. Elija la suya; hasta entonces no se muestra nada más.
end-sessions = Terminar sesiones
has-second = con segundo factor
lift-second = Quitar el segundo factor
seen-heading = Quién ve esta casa
seen-all = Todos los de la oficina que hayan entrado.
seen-some = Los propietarios, y a quienes usted elija aquí. Nadie más la encuentra en ninguna parte.
seen-only-owners = Aquí solo hay propietarios, que ven todas las casas.
seen-people = Quién la ve además de los propietarios
seen-close = Cerrarla
seen-open = Abrirla a todos
seen-closed = Esta casa está cerrada: la ven los propietarios y a quienes ellos nombraron.
demand-heading = Segundo factor
demand-is = Todos necesitan un segundo factor. Quien no tiene prepara uno antes de ver nada.
demand-not = Se entra con la contraseña sola. Un segundo factor deja fuera a quien averiguó una.
demand = Pedirlo a todos
demand-no-more = Dejarlo a cada persona
audit-heading = Lo que se hizo
earlier-lines = Anteriores
deed-set-up = oficina preparada
deed-signed-in = entró
deed-wrong-password = contraseña equivocada
deed-locked = bloqueada
deed-unlocked = desbloqueada
deed-signed-out = salió
deed-password-changed = contraseña cambiada
deed-person-added = persona agregada
deed-role-set = puede otra cosa
deed-person-removed = persona quitada
deed-packet-received = paquete recibido
deed-finding-entered = hallazgo anotado
deed-sessions-ended = sesiones terminadas
deed-second-factor-set = segundo factor preparado
deed-second-factor-dropped = segundo factor quitado
deed-second-factor-demanded = segundo factor pedido a todos
deed-second-factor-left-free = segundo factor dejado a cada persona
deed-wrong-code = código equivocado
deed-code-asked = contraseña correcta, código pedido
deed-had-to-wait = tuvo que esperar
deed-wrong-link = enlace de preparación equivocado
deed-not-allowed = pidió más de lo que su papel permite
deed-request-refused = solicitud rechazada
deed-house-closed = casa cerrada
deed-house-opened = casa abierta a todos
deed-house-shown = casa mostrada a alguien
deed-house-hidden = casa ocultada a alguien
deed-fault = algo falló
deed-restored = registros restaurados

## Los paquetes como llegan
inbox-heading =
    { $n ->
        [0] Todavía no llegó ningún paquete
        [one] { $wanting ->
            [0] Llegó un paquete, y la empresa responde por él
           *[other] Llegó un paquete, y hay que mirarlo
        }
       *[other] { $wanting ->
            [0] Llegaron { $n } paquetes, y la empresa responde por todos
            [one] Llegaron { $n } paquetes; hay que mirar uno
           *[other] Llegaron { $n } paquetes; hay que mirar { $wanting }
        }
    }
inbox-none-how = Selle una casa en la tableta, traiga el paquete y suéltelo en esta página.
inbox-note = Un paquete se usa entero o no se usa, y se guarda una vez aunque llegue varias.
houses-n =
    { $n ->
        [one] 1 casa
       *[other] { $n } casas
    }
drop-here = Suelte aquí los paquetes, como la tableta los selló.
choose-packet = Elegir archivos
handing = Entregando { $name }
handing-left =
    { $n ->
        [one] espera uno más
       *[other] esperan { $n } más
    }
handing-check = Aquí está; se compara cada bit.
sending-share = { $n } de 100 enviado
not-received = No se recibió: { $name }
refused-heading = { $n ->
    [one] Un archivo de la carpeta vigilada no se recibió
   *[other] { $n } archivos de la carpeta vigilada no se recibieron
}
refused-where = { $n ->
    [0] Cada uno está en su carpeta “refused”. Si lo saca de ahí, desaparece de aquí.
   *[other] Estos son los últimos; otros { $n } están en su carpeta “refused”. Si los saca de ahí, desaparecen de aquí.
}
came-in = paquete { $n }: recibido, entero
came-again = paquete { $n }: ya estaba aquí, y se guarda una vez
packet-n = paquete { $n }
packet-holds =
    { $n ->
        [one] { $entries } entradas, 1 foto, { $size }
       *[other] { $entries } entradas, { $n } fotos, { $size }
    }
sealed-when = sellado el { $when }
megabytes = { $n } MB
kilobytes = { $n } kB
findings-of = { $entered } de { $wanted } anotados
not-judged = su pronóstico no es el que cuenta
enter-findings = Anotar hallazgos

## Una casa
house-counts =
    { $n ->
        [one] { $answered } contestadas, 1 foto
       *[other] { $answered } contestadas, { $n } fotos
    }
house-sums = Mitad y mitad en { $low }, 9 de cada 10 dentro de { $high }.
house-days = Días de más: { $low } a mitad y mitad, { $likely } a 8 de cada 10.
packet-after-demolition = Sellado después de declarada la demolición; nunca se juzga
calculated = Lo que se calculó
to-print = Para imprimir
photos-of-walk = Fotos del recorrido
photo-nth = Foto { $n } de { $of }
photo-before = Foto anterior
photo-after = Foto siguiente
photo-alone = Solo la foto, sin sus marcas
photo-not-inside = Este paquete no contiene esa foto
shot-none = La foto está guardada; aquí no se puede mostrar.

## Hallazgos
was-said = Dicho antes de la demolición
was-there = Lo que había
findings-heading =
    { $left ->
        [0] Cada una de { $wanted } condiciones tiene hallazgo
        [one] Una de { $wanted } condiciones sigue sin hallazgo
       *[other] { $left } de { $wanted } condiciones siguen sin hallazgo
    }
findings-entered = { $entered } de { $wanted } anotados
findings-all = No queda nada por anotar.
findings-note = «No se abrió» también es un hallazgo: dice que nadie miró, y no cuenta ni a favor ni en contra del pronóstico. Un cambio es una entrada nueva con su hora; la anterior se queda.
findings-read-only = Usted puede leer aquí. Un revisor anota lo que se halló.
frozen-when = dicho el { $when }
finding = Lo que había
outcome-found = hallado
outcome-not-there = no estaba
outcome-not-opened = no se abrió
no-finding = todavía sin hallazgo
to-enter = por anotar
to-enter-here = por anotar: pulse una letra, o abra la fila
only-left = Solo lo que falta
letter-found = H
letter-not-there = N
letter-not-opened = S
letter-days = D
letter-note = P
letter-left = F
keys-rows = arriba y abajo
keys-along = llevar consigo
keys-heard = Con las teclas: las flechas van de fila en fila, con Mayúsculas llevan filas consigo; Entrar abre una fila. { $found }: hallado. { $notThere }: no estaba. { $notOpened }: no se abrió. { $left }: solo lo que falta. { $other }: se halló otra cosa. Las letras valen para todas las filas que van juntas.
taken-along = va con las demás
findings-taken = { $n } filas van juntas
finding-kept = { $name }: { $what }, guardado. { $entered } de { $wanted }.
findings-kept = { $n } filas: { $what }, guardado. { $entered } de { $wanted }.
survey = Recorrido
opened = Abierto
survey-shot = { $n ->
    [0] Foto del recorrido: { $what }
    [one] Foto del recorrido con una marca: { $what }
   *[other] Foto del recorrido con { $n } marcas: { $what }
}
photo-large = Verla en grande
survey-shot-none = Ninguna foto del recorrido muestra lo que habla a favor o en contra.
shot-number = Foto { $n }
finding-shot = Foto de lo que había: { $what }
said-money = Si está, { $range }
said-money-came = Dicho { $range }; llegó a { $money }
said-days = Días, si está: { $low } a { $high }
in-base-price-note = Está en el precio base y en ninguna suma.
keep-found = Hallado: guardar
came-to = llegó a
days = días
days-how = Como 2, 1.5 o 1 1/2.
days-added =
    { $n ->
        [one] 1 día
       *[other] { $n } días
    }
who-bore = quién lo pagó
borne-in-price = en el precio
borne-allowance = monto provisional (allowance)
borne-change-order = orden de cambio
borne-absorbed = nosotros
borne-not-said = sin decir
in-words = en palabras
finding-photo = Foto de ello
finding-photo-sent = La foto está aquí. Es del hallazgo cuando este se guarde.
entered-by = Anotado por { $by }, { $at }.
entered-before =
    { $n ->
        [one] Una entrada anterior queda en el registro.
       *[other] { $n } entradas anteriores quedan en el registro.
    }
cost-not-read = «{ $said }» no es una suma.
cost-not-read-how = Escríbala como 1480 o $1,480.
days-not-read = «{ $said }» no es un número de días.
days-not-read-how = Escríbalo como 2, 1.5 o 1 1/2.
letter-other = O
other = Se halló otra cosa
others-heading = Hallado sin que nadie lo pronosticara
other-which = Qué fue
other-which-how = Unas palabras de su nombre; las flechas bajan por la lista, Entrar escoge.
other-fit =
    { $n ->
        [0] Nada de lo que aún no tiene fila lleva estas palabras en su nombre.
        [one] Una coincide.
       *[other] { $n } coinciden, se muestran { $shown }.
    }
other-leave = Nada de esto
other-chosen = { $name }, por anotar: lo que costó.
other-kept = { $name }: { $what }, guardado. Nadie lo pronosticó.
other-counts = El pronóstico no dijo nada de ello. Cuenta como algo que se escapó, y lo que costó está en lo que llegó a costar la casa.

## Pronóstico junto a hallazgo
compare = Comparar
compared-heading = { $label } llegó a { $money }
compared-heading-dots =
    { $n ->
        [0] { $label } llegó a { $money }: debajo de los veinte puntos
        [20] { $label } llegó a { $money }: encima de los veinte puntos
        [one] { $label } llegó a { $money }: encima de uno de veinte puntos
       *[other] { $label } llegó a { $money }: encima de { $n } de veinte puntos
    }
compared-heading-none = De { $label } todavía no se abrió nada
compared-none-how = No hay nada que comparar antes del primer hallazgo.
compared-opened = { $n } de { $wanted } abiertas
came-lies = Eso queda { $lies }.
came-dots =
    { $n ->
        [0] Ningún punto queda debajo de lo que llegó a costar.
        [one] Uno de veinte puntos queda debajo de lo que llegó a costar.
       *[other] { $n } de veinte puntos quedan debajo de lo que llegó a costar.
    }
one-house = Una casa no prueba nada; es una línea del registro.
where-fell = Dónde cayeron los { $money }
came-late = De ello, { $money } apareció después de fijar el precio.
days-took = Días de más: { $days }, { $lies }
odds-scored = Cómo salieron las probabilidades
scored = { $n } abiertas, { $found } halladas: { $brier } contra { $base } de la frecuencia de base de la época.
scored-how = Puntaje de Brier: cuanto menor, más cerca estuvieron las probabilidades de lo que había.
scored-few = Con tan pocos resultados es sobre todo suerte.
differences = Dónde difirió, lo mayor primero
carried-average = previsto en promedio
carried-came = previsto { $carried }, llegó a { $came };
said-odds = dicho { $odds }
not-forecast = no pronosticado
a-miss = se escapó
an-alarm = una falsa alarma
no-difference = Lo que se abrió llegó a lo previsto.
all-differences =
    { $n ->
        [one] Y una más
       *[other] Y { $n } más
    }
fewer = Solo las mayores
which-misled = Qué pista engañó: { $name }
misled-others = Otras que se escaparon y falsas alarmas
wrong-way = en sentido equivocado
opened-was = Abierto: { $what }
unopened-heading =
    { $n ->
        [one] Una no se abrió
       *[other] { $n } no se abrieron
    }
unopened-how = No cuentan de ningún modo: nadie lo sabe.

## El historial
track = Historial
track-heading =
    { $n ->
        [one] Un lugar abierto: { $found } hallados, { $expected } esperables por lo dicho
       *[other] { $n } lugares abiertos: { $found } hallados, { $expected } esperables por lo dicho
    }
track-heading-none = Ningún pronóstico se ha puesto a prueba todavía
track-none-how = Un pronóstico se pone a prueba cuando su casa se abrió y se anotó un hallazgo.
track-all = Todo lo dicho
bin-said = Dicho { $range }
bin-off = fuera de su barra
found-of = { $found } de { $n } hallados
found-said = { $found } de { $n } hallados; dicho { $expected }
nothing-opened = nada abierto
track-luck = { $n } resultados.
track-luck-holds = Cada barra es el margen que deja el azar alrededor de lo hallado. Lo dicho cae dentro de todas: nada aquí habla todavía contra las cifras.
track-luck-off = Cada barra es el margen que deja el azar alrededor de lo hallado. Donde lo dicho cae fuera, el azar solo apenas lo explica.
office-track-small =
    { $n ->
        [one] Un resultado en { $houses } casas es un número pequeño.
       *[other] { $houses ->
            [one] { $n } resultados en una casa son un número pequeño.
           *[other] { $n } resultados en { $houses } casas son un número pequeño.
        }
    }
track-small-how = Por debajo de { $n } resultados o { $houses } casas el azar pesa más que todo lo demás; solo se dibujan cuentas.
office-track-few = Un número pequeño.
track-split = Parte por parte
split-condition = condición
split-era = época
split-scope = trabajo previsto
split-surveyor = quién recorrió
split-month = mes
track-overlap = Una casa puede estar en varias partes.
brier-against = Brier { $brier } contra { $base }.
all-parts =
    { $n ->
        [one] Y una parte más
       *[other] Y { $n } partes más
    }
fewer-parts = Solo las primeras
office-track-money = Dinero, casa por casa
sums-how = Banda hasta P80, línea hasta P90, disco lo que resultó: lleno hasta P80, vacío más allá, punteado donde un lugar quedó cerrado.
sums-said = P50 { $p50 }, P80 { $p80 }, P90 { $p90 }; resultó { $money }
sums-said-part = P50 { $p50 }, P80 { $p80 }, P90 { $p90 }; resultó al menos { $money }
office-track-within = Cuántas veces alcanzaron las sumas
track-no-sums = Una suma cuenta cuando toda condición de su casa tiene un hallazgo.
money-whole = Dinero, todo abierto
money-part = Dinero, un lugar quedó cerrado: al menos
days-whole = Días, todo abierto
days-part = Días, un lugar quedó cerrado: al menos
held-on = alcanzó en { $n } de { $of }
held-band = { $low } a { $high } de cada 10 por azar
came-on-average = Resultó { $came } en promedio.
off-by = El pronóstico se apartó { $by } (CRPS).
track-scores = En cifras
score = Puntaje
score-ours = nuestro
score-base = frecuencia de base
score-skill = ventaja
score-no-skill = ninguna
score-brier = Brier
score-brier-how = 0 es perfecto
score-log = puntaje logarítmico
score-log-how = nats; 0 es perfecto
score-auc = Distingue: { $auc }.
score-auc-how = Área bajo la curva ROC; 0.5 es una moneda, 1 es perfecto.
brier-parts = Brier: fiabilidad { $reliability } − resolución { $resolution } + incertidumbre { $uncertainty }.
brier-parts-how = Las frecuencias de base son las de las otras casas de la misma época. La ventaja es la parte de su error que desaparece.
rests-on = Esto se apoya en
track-left-out = Quedó fuera
track-neither = { $closed } condiciones nunca se abrieron y { $open } no tienen hallazgo todavía: no cuentan ni a favor ni en contra.
out-no-findings = sin hallazgo
out-no-forecast-in-time = abiertas antes de que llegara un paquete
out-nothing-opened = no se abrió nada
out-catalog-saw-it = pronosticadas con números que habían aprendido de ellas
track-seen = Con aquellas de las que aprendieron los números
track-seen-how = Un catálogo que aprendió de una casa la conoce; tales pronósticos no prueban nada y quedan fuera si no se piden.
office-track-again = Pronosticado de nuevo
track-again-how = El último pronóstico de casas selladas otra vez. Puede saber más que el primero; por eso no es historial.

## Lo que enseñan las casas
learning = Lo que enseñan las casas
learning-short = Aprendido
learning-heading =
    { $n ->
        [one] Un número del catálogo cambiaría. Usted decide.
       *[other] { $n } cosas del catálogo cambiarían. Usted decide cada una.
    }
learning-working = Se está calculando con las casas abiertas
learning-working-how = Sigue por sí solo y tarda de segundos a muchos minutos. Mientras tanto se puede hacer todo lo demás.
learning-none = Por ahora no hay nada que aprender
learning-none-how = Las casas enseñan cuando se han abierto, y una sola vez: después lo que enseñaron está en los números.
learning-known =
    { $n ->
        [one] Una casa ya está en los números del catálogo y no se cuenta otra vez.
       *[other] { $n } casas ya están en los números del catálogo y no se cuentan otra vez.
    }
learning-skipped = Una casa no dice nada: { $why }
learning-legend = Punto vacío: el número en uso, de cada 10. Punto lleno: lo que dicen las casas abiertas, retenido por las casas por las que cuenta el número anterior. Banda: 9 de cada 10.
learning-note = En un pronóstico ya hecho nada cambia: cada uno nombra el catálogo que usó. Lo adoptado llega a las tabletas cuando se publica.
learning-keys = Con las teclas: las flechas van de línea en línea. { $take }: tomarla o dejarla. { $refuse }: rechazarla. { $houses }: sus casas.
letter-take = A
letter-refuse = R
letter-evidence = C
take-along = tomar
refuse = rechazar
its-houses = sus casas
its-houses-n =
    { $n ->
        [one] Abierta en una casa
       *[other] Abierta en { $n } casas
    }
catalog-is = catálogo { $catalog }
number-old = antes
number-new = nuevo
number-moves = { $old } pasa a { $new }, entre { $low } y { $high } de cada 10
line-open = abierta
line-taken = por adoptar
line-accepted = adoptada
line-was-refused = rechazada
line-chosen = { $name }: por adoptar; { $n } en total.
line-left = { $name }: se deja; { $n } por adoptar.
line-refused = { $name }: rechazada.
line-weight = El número anterior cuenta por { $n } casas; { $houses } abiertas hablan de él.
line-small = Un número pequeño: sobre todo del catálogo y del azar.
held-out = Probado en casas de las que no había aprendido
held-better = Más cerca: puntaje logarítmico { $after } en lugar de { $before } en { $n } lugares abiertos.
held-worse = No más cerca: puntaje logarítmico { $after } en lugar de { $before } en { $n } lugares abiertos.
held-scoring = Todavía se está calculando.
held-none = No probado: hacen falta diez casas.
held-all = Todas las líneas juntas:
was-accepted = Adoptada por { $by }, { $when }.
was-refused = Rechazada por { $by }, { $when }.
take-line = Tomarla
leave-line = Dejarla, después de todo
refuse-line = Rechazar, con una palabra del porqué
why-refused = ¿Por qué no?
refuse-now = Rechazarla
chosen-n =
    { $n ->
        [one] Una línea está por adoptar.
       *[other] { $n } líneas están por adoptar.
    }
chosen-how = Se escriben juntas en los números propios de la empresa.
chosen-sure = Las casas quedan entonces en los números y no enseñan otra vez: de { $n } líneas propuestas, las que ahora se dejan solo las volverán a proponer casas por venir.
accept-lines =
    { $n ->
        [one] Adoptarla…
       *[other] Adoptar { $n }…
    }
accept-now = Adoptar ahora
not-yet = Todavía no
learning-accepted =
    { $n ->
        [one] Una línea adoptada; el catálogo es ahora { $catalog }.
       *[other] { $n } líneas adoptadas; el catálogo es ahora { $catalog }.
    }
all-lines =
    { $n ->
        [one] Y una línea más
       *[other] Y { $n } líneas más
    }
fewer-lines = Solo las más seguras
decided-heading = Lo que se decidió
deed-learning-accepted = línea aprendida adoptada
deed-learning-refused = línea aprendida rechazada
deed-catalog-published = catálogo publicado
deed-packet-refused = paquete de la carpeta rechazado
published-heading = Con qué trabajan las tabletas
published-last = Versión { $number }, publicada { $when }
published-by =
    { $houses ->
        [one] por { $by }; una casa está en sus números; catálogo { $catalog }
       *[other] por { $by }; { $houses } casas están en sus números; catálogo { $catalog }
    }
published-none = El catálogo tal como vino
published-differs = Los números de la empresa han cambiado desde entonces. Las tabletas trabajan con ellos cuando se publican.
published-same = Los números de la empresa son los de esta versión.
published-nothing = La empresa todavía no tiene números propios.
publish = Publicar para las tabletas…
publish-sure = Cada tableta enlazada toma estos números en el próximo contacto, y desde entonces pronostica con ellos. Los pronósticos ya hechos quedan como están.
publish-now = Publicar ahora

## Tabletas
tablets = Tabletas
tablets-heading =
    { $n ->
        [0] Ninguna tableta entrega por sí sola a esta oficina
        [one] Una tableta entrega por sí sola a esta oficina
       *[other] { $n } tabletas entregan por sí solas a esta oficina
    }
tablets-here = Emparejadas
tablets-none = Ninguna todavía. Los paquetes traídos a mano entran igual, hasta que se invite la primera tableta: desde entonces vienen solo de tabletas de esta oficina.
invite-heading = Una tableta más
invite-what = La tableta fotografía una vez un código de esta página. Le dice dónde está esta oficina y por qué certificado reconocerla.
invite = Mostrar un código
invite-code = El código que la tableta fotografía
invite-how = En la tableta: Ajustes, la oficina, fotografiar el código. Después compare lo que muestra la tableta con la suma del certificado que imprimió el programa de la oficina.
invite-until = Sirve una vez. Vence: { $when }
invite-link = O pegue esto allí:
invite-other = Otro código
tablet-since = desde { $when }
tablet-invited = desde { $when }, invitada por { $by }
tablet-seen = estuvo aquí por última vez { $when }
tablet-never = todavía no estuvo aquí
tablet-holds-not-said = Todavía no ha pedido los números que usted publica.
tablet-holds-nothing = No tiene ninguno de los números que usted publicó.
tablet-holds-version = Tiene los números de la versión { $n }.
tablet-holds-another = Tiene números que esta oficina no conoce. Si la oficina se restauró de una copia, publique otra vez.
tablet-handed = Se le entregó la versión { $n }; todavía no ha dicho que la tomó.
tablet-revoked-at = revocada { $when }
revoke = Revocar…
revoke-really = { $name } no enviará nada más. Lo que vino de ella se queda.
revoke-line = Revocar la tableta
revoke-key = La tableta y su llave
revoke-key-how = También su llave, si se perdió o la robaron: entonces nada sellado desde ahora tiene quien responda por ello.
arriving-heading =
    { $n ->
        [one] Un paquete viene en camino
       *[other] { $n } paquetes vienen en camino
    }
arriving-share = { $have } de { $of } aquí
arriving-since = empezado { $since }, última parte { $last }
deed-tablet-invited = tableta invitada
deed-tablet-paired = tableta emparejada
deed-tablet-revoked = tableta revocada
deed-key-revoked = llave revocada
deed-key-made = llave de la oficina hecha
packet-earlier = Esta es la casa como la trae el paquete { $n }. El último es el paquete { $last }.
packet-last = Mostrar el último
signature-heading = La firma de la familia
signature-drawn = Lo que trazó { $name }
signature-by-name = Firmado solo con el nombre; no se trazó ninguna línea.
