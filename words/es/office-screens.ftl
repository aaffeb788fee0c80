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
password-first-how = Al menos { $n } letras. Entréguela en persona; se puede cambiar después de entrar la primera vez.
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
calculated = Lo que se calculó
to-print = Para imprimir
photos-of-walk = Fotos del recorrido
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
keys-heard = Con las teclas: las flechas van de fila en fila, con Mayúsculas llevan filas consigo; Entrar abre una fila. { $found }: hallado. { $notThere }: no estaba. { $notOpened }: no se abrió. { $left }: solo lo que falta. Las letras valen para todas las filas que van juntas.
taken-along = va con las demás
findings-taken = { $n } filas van juntas
finding-kept = { $name }: { $what }, guardado. { $entered } de { $wanted }.
findings-kept = { $n } filas: { $what }, guardado. { $entered } de { $wanted }.
survey = Recorrido
opened = Abierto
survey-shot = Foto del recorrido: { $what }
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
