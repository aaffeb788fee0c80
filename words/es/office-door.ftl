# La oficina por la red: lo que dice su consola y lo que rechaza su puerta.

## office
office-open = La oficina está abierta en { $address }
office-fingerprint = SHA-256 de su certificado: { $sum }
office-certificate-new = Este certificado se acaba de hacer. Los navegadores advierten de él hasta que alguien compare la suma de arriba y lo deje pasar.
office-no-screens = Las pantallas no se compilaron en este programa; los paquetes se reciben de todos modos (“make field” compila uno que las lleva).
office-set-up = Todavía no hay nadie. Quien abra este enlace será el primer propietario; sirve una vez, y hasta que este programa termine:
office-how = Ctrl-C la termina; a quien se le está respondiendo se le deja acabar.
office-scans = Los paquetes y las fotos solo se guardan después de que { $program } los haya mirado.
office-log-goes = Las líneas del registro de auditoría van también a { $to }.
log-not-sent = el registro de auditoría no se puede enviar a { $to }: { $said }; lo que falta se enviará en cuanto se pueda
error-log-to = { $to } no es una máquina a la que se pueda enviar el registro
error-log-to-hint = dé su nombre y su puerto, como collector.example:6514
error-log-certificate-hint = dé los certificados en PEM por los que se conoce esa máquina
office-watches = Los paquetes que aparezcan en { $folder } se reciben y se apartan allí.
watch-received = { $about } (de la carpeta)
watch-link = esto es un enlace, y los enlaces no se siguen; ponga aquí el paquete mismo
watch-no-file = esto no es un archivo
watch-stays = { $name } queda donde está: { $why }
error-watch-none = no hay una carpeta { $path } que vigilar
error-watch-folder = no se puede vigilar { $path }: no es una carpeta, o está con la de la oficina
error-watch-hint = nombre una carpeta que exista y esté aparte de la carpeta de la oficina
office-host = a esta oficina se le pide con un nombre que no es suyo
office-host-hint = ábrala por su dirección, o iníciela con --name y ese nombre
office-origin = esto lo pidió otra página, y no se responde
office-packet-large = no se recibe un paquete de más de { $most } GB
office-full = en el disco de la oficina no hay lugar; no se guardó nada de ello
office-full-hint = haga lugar ahí y envíelo otra vez
office-disk = el disco de la oficina no pudo guardarlo
office-disk-hint = quien cuida esa máquina debería revisar el disco
office-again = envíelo otra vez
office-no-key = esta oficina todavía no tiene llave propia
office-fault = algo falló dentro de la oficina
office-fault-hint = quien la cuida encuentra la razón en el registro de la pantalla de personas, como “algo falló”
office-backed-up = copia de respaldo hecha en { $file }
office-restored = restaurada en { $folder }
office-backup-holds = { $files ->
    [one] 1 archivo
   *[other] { $files } archivos
}, { $size } kB, del { $at }
office-password-unread = la contraseña no se pudo leer de la entrada (en inglés: { $said })
office-password-set = { $name } tiene otra contraseña, y ya no está dentro en ningún navegador

## people
people-signed-out = en este navegador no ha entrado nadie
people-first-password = esta contraseña la eligió otra persona; elija la suya antes de hacer cualquier otra cosa
people-second-first = esta oficina pide a todos un segundo factor; prepare el suyo antes de hacer cualquier otra cosa
people-second-demanded = esta oficina pide a todos un segundo factor, y por eso nadie deja el suyo
people-code-wanted = la contraseña es correcta; dé también el código que muestra su teléfono
people-wrong-code = este código no es el de este momento, o ya se usó
people-wrong-code-hint = un código sirve una vez; espere el siguiente, y vea si los relojes del teléfono y de la oficina coinciden
people-own-second = su propio segundo factor se quita en Yo, con contraseña y código
people-own-second-first = prepare su propio segundo factor antes de pedirlo a todos
people-not-begun = aquí no se empezó a prepararlo, o fue hace más de diez minutos
people-not-begun-hint = empiece de nuevo, y escanee el código nuevo
people-too-quick = en este minuto se pidió más de lo que puede una persona
people-too-quick-hint = espere un minuto
people-role = para esto hace falta el papel de { $least } o más; el suyo es { $role }
people-role-estimator = estimador
people-role-office = oficina
people-role-reviewer = revisor
people-role-owner = propietario
people-wrong = aquí no hay nadie con ese nombre y esa contraseña
people-wrong-hint = se comparan los dos; después de cinco contraseñas equivocadas hay que esperar
people-locked = se dieron demasiadas contraseñas equivocadas para este nombre
people-locked-hint = espere un cuarto de hora, o pida a un propietario que lo desbloquee
people-too-many = de esta dirección vinieron demasiados intentos
people-wait-hint = espere un cuarto de hora
people-busy = demasiadas personas entran en este momento
people-busy-hint = intente otra vez
people-link = este enlace ya se usó, o es de un inicio anterior de la oficina
people-link-hint = mientras no haya nadie, la oficina imprime otro cuando se inicia
people-name = dé un nombre en una línea, de 80 letras a lo más
people-name-taken = aquí ya hay alguien que se llama “{ $name }”
people-short = la contraseña tiene menos de { $n } letras
people-long = la contraseña tiene más de { $n } letras
people-guessable = la contraseña está hecha de nombres de esta oficina, de palabras comunes o de letras seguidas
people-became-known = esta contraseña se conoció por un robo de datos en otro lugar, y es de las primeras que se prueban
people-weak-hint = cuatro o cinco palabras que no tengan que ver entre sí se recuerdan bien y se adivinan mal; no hacen falta cifras ni mayúsculas
people-wrong-old = esta no es la contraseña que usted tiene ahora
people-nobody = aquí no hay tal persona
people-last-owner = es el último propietario
people-last-owner-hint = haga antes propietario a otra persona
people-no-command = no hay un comando “{ $name }”
people-arguments = los argumentos de “{ $command }” no se pueden leer: { $what }

## errors
error-address = en { $address } no se puede escuchar (en inglés: { $said })
error-address-hint = nombre otra con --address, como 127.0.0.1:8443
error-certificate = { $path } no es un certificado o una llave que se pueda mostrar (en inglés: { $said })
error-certificate-hint = los dos son archivos PEM, y la llave es la del primer certificado
error-certificate-name = no se puede hacer un certificado para { $names } (en inglés: { $said })
error-office-served = otro programa sirve la oficina en { $path }
error-office-served-hint = termínelo antes
error-backup-no-office = en { $path } no hay una oficina
error-backup-there = { $path } ya está; una copia de respaldo se escribe en un archivo nuevo
error-backup-not-empty = { $path } no está vacía; una copia de respaldo se restaura en una carpeta vacía
error-backup-not-empty-hint = nombre otra carpeta con --office, o aparte esta
error-backup-not-whole = { $path } no es una copia de respaldo entera: { $what }. No se restauró nada
error-backup-not-whole-hint = tome una copia anterior
error-backup-archive = no se puede leer (en inglés: { $said })
error-backup-no-list = falta la lista de sus archivos, así que se cortó o es otra cosa
error-backup-newer = la hizo un programa más nuevo
error-backup-file = “{ $name }” está alterado, falta o no está en su lista

# Tabletas en la línea
tablet-not-paired = esta tableta no está enlazada con esta oficina
tablet-pair-hint = pida a un dueño de la oficina que la invite, y enlácela con el nuevo enlace
tablet-revoked = «{ $name }» fue revocada en esta oficina ({ $since }); ya no puede enviar nada
tablet-code = esta invitación ya se usó, es demasiado vieja o es otra
tablet-code-hint = una invitación sirve una vez y durante diez minutos; pida a la oficina una nueva
tablet-name = dé a la tableta un nombre en una línea, de no más de 120 letras
tablet-none = aquí no hay tal tableta
tablet-address = «{ $address }» no es una dirección con puerto por la que una tableta pueda hallar esta oficina
tablet-recipe = no se puede leer lo que la tableta dice de su paquete
office-range = llegó una parte sin decir dónde va
arriving-not-begun = este paquete no se empezó aquí, o se abandonó
arriving-foreign = esta parte no es del paquete como se anunció
arriving-not-whole = no está aquí todo el paquete
arriving-another = lo que llegó es otro archivo del que se anunció
arriving-too-many = más de { $most } paquetes de esta tableta están en camino e incompletos
arriving-too-many-hint = termine primero uno de ellos
