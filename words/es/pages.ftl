# Las páginas de un paquete.

## Lo que responden las páginas
pages-title = Lo desconocido: { $sum } o menos, 8 de cada 10 veces
pages-lead = De { $all } condiciones en el alcance de este trabajo, { $likely } son probables o más; no se listan { $left } poco probables. No haber visto nada nunca quiere decir que no haya nada.
pages-lead-no-plan = No hay trabajo previsto anotado, así que se cuentan todas las condiciones. De { $all } condiciones en el alcance de este trabajo, { $likely } son probables o más; no se listan { $left } poco probables. No haber visto nada nunca quiere decir que no haya nada.
pages-draws = De { $n } sorteos conjuntos de todas las condiciones y sus costos; percentiles de la suma, nunca sumas de percentiles.
pages-over = Probabilidad de que pase del 2, 5 y 10% del contrato: { $two }, { $five }, { $ten }.
pages-kept-apart = Aparte: { $sum } en promedio por condiciones que se toman como incluidas en el precio base.
pages-utility = { $n ->
    [one] Una compañía de servicios puede tardar un día calendario desde la firma en 8 de cada 10 casos.
   *[other] Una compañía de servicios puede tardar { $n } días calendario desde la firma en 8 de cada 10 casos.
}
pages-look-why = Podría cambiar: { $conditions }. Lo hace: { $who }.
pages-look-why-ask = Podría cambiar: { $conditions }. Lo hace: { $who }. No mientras haya: { $ask }.
pages-minutes = { $n } min
pages-the-house = La casa
pages-remarks = Observaciones
pages-no-time = el archivo no dice la hora

## Documento, encabezado y sumas
pages-document = Paquete { $number }: { $label }
pages-running = paquete { $number }, para la oficina
pages-byline = Levantamiento de { $who }. Sellado { $when }, UTC{ $offset }, de { $n } entradas del registro.
pages-byline-firm = Levantamiento de { $who } para { $firm }. Sellado { $when }, UTC{ $offset }, de { $n } entradas del registro.
pages-nobody = nadie nombrado
pages-cost = { $low } a { $high }
pages-most-likely = lo más probable { $sum }
pages-from-nothing = De cero a { $sum }
pages-missing = No se sabe: { $what }.
pages-p50-words = mitad y mitad
pages-p80-words = 8 de 10 por debajo
pages-p90-words = 9 de 10 por debajo
pages-mean = Promedio
pages-mean-words = de muchas casas
pages-survey = Levantamiento
pages-computed-by = Calculado por
pages-from-log = Del registro
pages-entries = { $n ->
    [one] una entrada
   *[other] { $n } entradas
}
pages-assessment = Evaluación
pages-catalog-sum = { $catalog }, suma { $sum }
pages-assessment-sum = data/assessment.json, suma { $sum }
pages-cut = … (el resto está en el registro)

## Palabras de la plantilla
pages-no-name = Casa sin nombre
pages-house = Casa
pages-sealed = Sellado
pages-catalog = Catálogo
pages-packet = Paquete
pages-page = Página
pages-nothing-raised = No hay nada que mencionar en el alcance de este levantamiento.
pages-condition = Condición y costo si está ahí
pages-odds = Probabilidad, 0 a 10 de 10
pages-do = Qué hacer
pages-because = Por qué; quién decide
pages-money-and-days = Dinero y días
pages-unknown = Lo desconocido
pages-money = Dinero
pages-good-to = Exacto a
pages-of-contract = Del contrato
pages-extra-days = Días de más
pages-twenty-dots = Veinte puntos, cada uno una posibilidad de veinte; dieciséis quedan a la izquierda de P80. Detrás, cómo caen los sorteos.
pages-weigh-most = Lo que más pesa
pages-on-average = En promedio
pages-if-there = Si está
pages-calculation = Cálculo
pages-drawing = Dibujo del resultado
pages-one-change = Un cambio a la vez
pages-who-decides = Quién decide.
pages-measurements = Lo que responden las medidas
pages-annex = La aritmética, los valores con que se compara y lo que se supuso están en «Cómo se calcularon las medidas».
pages-held-against = Comparado con
pages-assumed = Supuesto, porque nadie lo midió ni lo eligió
pages-also = También
pages-reckoned = Cómo se calcularon las medidas
pages-look = Revisar antes de firmar
pages-no-look = Ninguna revisión más vale su tiempo.
pages-takes = Toma
pages-worth = Vale
pages-look-what = Revisión
pages-could-do = Lo que podría lograr
pages-answers = Todas las respuestas
pages-no-place = Lugar sin nombre
pages-question = Pregunta
pages-answer = Respuesta tal como se anotó
pages-who-when = Quién y cuándo
pages-not-known = Lo que no se sabe, dicho por su nombre
pages-all-known = Toda pregunta hecha tiene respuesta.
pages-where = Dónde
pages-what = Qué
pages-why = Por qué
pages-photographs = Fotos
pages-no-photographs = No se tomó ninguna.
pages-small-copies = Copias chicas; los originales, como los escribió la cámara, están en el paquete con nombres que empiezan como se imprime debajo de cada una.
pages-no-picture = Sin imagen: la copia chica entregada no era un JPEG.
pages-photograph = Foto
pages-check = Cómo comprobar el sello
pages-check-how = El paquete es un zip con una carpeta, un bag según RFC 8493. Tres pasos con programas que hay en toda oficina; ninguno es nuestro. Escriba el nombre del archivo donde estas líneas dicen packet.zip.
pages-check-1 = Sumar el archivo entero.
pages-check-1-how = Compare la suma con la que se anotó al sellarlo; no puede estar en una página dentro del archivo.
pages-check-2 = Desempacarlo y sumar cada archivo.
pages-check-2-how = Cada línea debe terminar en OK.
pages-check-3 = Buscar algo de más.
pages-check-3-how = El validador de la Biblioteca del Congreso también halla archivos que ninguna lista nombra.
pages-check-shows = Lo que eso muestra: nada en el paquete cambió desde que se selló, si el paso 1 da la suma que se anotó entonces. Lo que no muestra: que una respuesta sea correcta, ni quién lo selló.
pages-went-in = Lo que entró en estos números
pages-may-be = Lo que puede estar oculto
pages-do-not-say = Lo que estas páginas no dicen

## El resumen
pages-todo = Qué incluir, reservar, dejar fuera y mirar primero
pages-todo-what = Condiciones, primero las de más peso
pages-uncertain = Lo que hace más incierta la suma
pages-one-by-one = Condición por condición
pages-all-listed = Las demás condiciones que se plantean
pages-how-reached = Cómo se llegó al número
pages-moved = Cuánto lo movió
pages-may-change = Lo que todavía podría cambiarlo
pages-photo = Foto
pages-how-likely = Qué tan probable
pages-and-more = { $n ->
    [one] y una más
   *[other] y { $n } más
}
pages-base-rate = Casas como esta, con este trabajo previsto
pages-clue = { $question } { $answer }
pages-small-steps = { $n ->
    [one] Una respuesta más
   *[other] { $n } respuestas más, cada una de poco peso
}
pages-a-little = un poco
pages-look-short = { $look } ({ $n } min)
pages-days-range = { $low } a { $high } días
pages-days-wait = una espera de { $low } a { $high } días por la compañía de servicios
pages-stage-demolition = demolición
pages-stage-rough-in = instalaciones
pages-stage-close-up = cierre

## Los oficios
pages-for-framer = para el estructurista
pages-for-plumber = para el plomero
pages-for-electrician = para el electricista
pages-for-hvac = para el contratista de HVAC
pages-for-drywall = para tablaroca y pintura
pages-trade-title = { $n ->
    [one] Una condición puede aparecer en su trabajo
   *[other] { $n } condiciones pueden aparecer en su trabajo
}
pages-trade-title-beyond = { $n ->
    [0] { $title }: más allá del valor con que se compara
    [one] { $title }: más allá del valor con que se compara; una condición puede aparecer
   *[other] { $title }: más allá del valor con que se compara; { $n } condiciones pueden aparecer
}
pages-trade-title-follows = { $n ->
    [one] Es posible que lo llamen después de otro oficio, una vez
   *[other] Es posible que lo llamen después de otros oficios, { $n } veces
}
pages-trade-title-figures = Lo que se calculó para su oficio
pages-after-demolition = Sellado después de declarada la demolición ({ $by }, { $at }): calculado de nuevo con lo que el recorrido había respondido antes. Lo que se abrió desde entonces lo dicen los hallazgos, no estas páginas.
pages-trade-lead = Leído en una casa habitada, sin abrir nada. Son probabilidades y lecturas, no un dictamen; no haber visto nada nunca quiere decir que no haya nada.
pages-trade-decides = La persona con licencia del oficio decide cómo se hace; rige el código local. Un valor de tabla se cita aquí con su edición y no dice qué ha adoptado el lugar.
pages-may-meet = Lo que puede aparecer
pages-measured = Medido
pages-reading = Lectura
pages-seen-there = Qué más se vio y se dijo
pages-openings = Huecos que quizá se abran y se cierren
pages-opening-size = Cuántos y de qué tamaño
pages-openings-note = La cantidad y el tamaño son los habituales, según criterio, en un lugar así: indique los suyos antes de dar precio, para que se pueda poner precio a cerrarlos.
pages-opening-planned = en lo que la obra abre de todos modos; indique el tamaño
pages-opening-cut = { $n } de { $width } × { $height }
pages-opening-cuts = { $n } ({ $few } a { $many }) de { $width } × { $height }
pages-for = Para
pages-opens = Abre
pages-by = Lo hace
pages-closes = Cierra
pages-asked = Lo que se le pide
pages-look-there = Revisiones que valen la pena mientras está ahí
pages-look-closes = Deja un hueco que hay que cerrar
pages-not-while = No mientras haya: { $what }
pages-ask-look = { $condition }: no se hace nada antes de { $until }.
pages-ask-treat = { $condition }: se trata como presente hasta { $until }.
pages-ask-price = Su precio de antemano, cada uno por separado, si está: { $conditions }.
pages-ask-tell = Si encuentra algo que no está en esta hoja, pare, tome una foto con una cinta métrica y llame a la oficina antes de seguir.

## La familia
pages-for-household = para la familia
pages-household-title = Lo que puede aparecer, y cuándo faltará algo
pages-household-lead = Nadie puede ver dentro de una pared cerrada. Miramos, medimos y preguntamos para que haya menos sorpresas. Esto es lo que pensamos, en palabras sencillas.
pages-household-what = { $name }. { $what }
pages-household-more = { $n ->
    [one] Otra cosa es menos probable o menor y no se lista aquí.
   *[other] Otras { $n } cosas son menos probables o menores y no se listan aquí.
}
pages-household-questions = Pregúntenos antes de firmar. Esta hoja es parte del paquete que se selló en la fecha de abajo y después no cambia.
pages-signature-said = He leído esta página. Firmarla no acepta ningún precio.
pages-inside = Lo que puede haber adentro
pages-means = Qué significa para usted
pages-treat-as = Se trata como presente
pages-means-in-price = Está en el precio.
pages-means-look-first = Primero mira una persona con licencia; antes no se abre nada.
pages-means-treated = El trabajo se hace como si estuviera, o se hace una prueba antes de abrir nada.
pages-means-set-aside = Se apartan { $sum }. Lo que no se use regresa a usted.
pages-means-asked = No está en el precio. Si aparece cuesta de { $low } a { $high }, y primero se le pregunta.
pages-costs-days = Lo que puede costar y cuánto puede tardar
pages-range-money = Es igual de probable que los extras sumen menos de { $half } que más. Una vez de cada diez suman más de { $nine }.
pages-range-days = Es igual de probable que tomen menos de { $half } días extra que más. Una vez de cada diez toman más de { $nine }.
pages-range-asked = Se le pregunta antes de hacer cualquier cosa fuera del precio.
pages-off-when = Cuándo faltará algo
pages-clash = Día { $day }: { $what }
pages-off-task = El trabajo
pages-off-what = Qué falta
pages-off-hours = Cuánto tiempo
pages-off-help = Qué ayuda
pages-off-days = { $low } a { $high } días
pages-off-some-hours = { $low } a { $high } horas
pages-medical = Aparatos médicos y medicinas
pages-medical-yes = Nos dijo que alguien depende de un aparato eléctrico o de medicina refrigerada. No se corta la luz antes de probar un respaldo y acordar un día.
pages-medical-no = Nos dijo que nadie depende de un aparato eléctrico ni de medicina refrigerada. Si eso cambia, díganos de inmediato.
pages-medical-unknown = Todavía no sabemos si alguien depende de un aparato eléctrico o de medicina refrigerada. Díganos antes de que empiece el trabajo.
pages-medical-who = Avise a tres personas: a quien dirige este trabajo, a la compañía de luz y a quien receta el aparato o la medicina.
pages-dust = Polvo y huecos
pages-dust-openings = Quizá se abran huecos en paredes, cielos rasos o pisos donde aparezca algo. Cada uno se vuelve a cerrar.
pages-dust-closed-off = El cuarto se cierra con plástico mientras hay polvo. El paso a un baño y a las recámaras queda libre.
pages-dust-lead = La pintura es tan vieja que puede tener plomo. Un renovador certificado decide cómo se trabaja; los niños y las mujeres embarazadas no entran al cuarto hasta que esté limpio.
pages-leave-alone = No toque esto
pages-to-move = Qué mover
pages-move-cabinets = Vacíe los gabinetes y cajones en los que se trabaja, y las repisas del otro lado de la pared.
pages-move-path = Deje libre un paso del ancho de una puerta desde la entrada hasta el cuarto, y levante los tapetes.
pages-move-above = Quite cuadros y espejos de las paredes junto al cuarto, arriba y abajo; los golpes los sacuden.
pages-questions = Preguntas
pages-signature = Recibí esta hoja y pude preguntar
pages-date = Fecha

## Órdenes de cambio probables
pages-for-orders = órdenes de cambio probables
pages-orders-title = { $n ->
    [0] Ninguna orden de cambio es probable
    [one] Una orden de cambio que puede venir, acordada de antemano
   *[other] { $n } órdenes de cambio que pueden venir, acordadas de antemano
}
pages-orders-lead = Cada una está escrita para entrar en el acuerdo antes de abrir nada: qué es la condición, por qué no se pudo ver, qué habla a su favor y cuánto cuesta si está. Las probabilidades son las de la evaluación sellada.
pages-orders-more = { $n ->
    [one] Una menor no se escribe aquí; está en la tabla de condiciones.
   *[other] { $n } menores no se escriben aquí; están en la tabla de condiciones.
}
pages-no-orders = Nada en el alcance de este levantamiento puede venir probablemente como orden de cambio.
pages-within-work = dentro del trabajo previsto
pages-price-range = Cuánto cuesta si está
pages-price-allowance = Monto provisional (allowance) en el acuerdo; lo que no se use se acredita
pages-price-unit = Precio unitario que se acuerda de antemano, cada vez que aparezca
pages-price-likely = Lo más probable, por acordar cuando se sepa
pages-price-time = Tiempo que agrega
pages-clause = Cláusula.
pages-clause-text = «{ $condition }», { $place }: { $what } No es parte del precio. Si aparece al abrir el trabajo, se muestra con una foto antes de cambiar nada y se hace al precio acordado aquí.
pages-why-hidden = Por qué no se pudo ver.
pages-hidden-by = Está detrás de acabados que siguen cerrados hasta la etapa de { $stage }.
pages-hidden-looks = Solo esto lo mostraría: { $looks }.
pages-hidden-unknown = Se preguntó y no se sabe: { $question } ({ $why }).
pages-evidence = Lo que habla a favor y en contra
pages-evidence-none = Ninguna respuesta la movió: es tan probable como en otras casas como esta.
pages-evidence-photos = Se ve en la foto { $photos }
pages-promise = Lo que promete la empresa
pages-promise-says = Las condiciones nombradas aquí no cambiarán el precio, hasta { $cap } en conjunto. La empresa paga lo que cuesten hasta esa suma.
pages-covers = Cubre
pages-not-covered = No cubre
pages-promise-cap = Tope
pages-promise-cost = Lo que cuesta la promesa
pages-promise-reached = Probabilidad de llegar al tope
pages-promise-above = Lo que cuesten las condiciones nombradas por encima del tope.
pages-promise-hazards = Nada que una persona con licencia deba mirar primero, ni nada que no se nombre aquí.

## Tablas
table-key = clave
table-condition = condición
table-place = lugar
table-probability = probabilidad, 0 a 1
table-band-low = la probabilidad puede ser tan baja como, 0 a 1
table-band-high = la probabilidad puede ser tan alta como, 0 a 1
table-cost-low = costo si está, bajo, USD
table-cost-likely = costo si está, probable, USD
table-cost-high = costo si está, alto, USD
table-days-low = días que agrega, bajo
table-days-likely = días que agrega, probable
table-days-high = días que agrega, alto
table-stage = etapa
table-trade = oficio
table-do = qué hacer
table-amount = monto, USD
table-decides = quién decide
table-opening-for = hueco para
table-openings-few = huecos, pocos
table-openings-usual = huecos, lo habitual
table-openings-many = huecos, muchos
table-opening-width = ancho de uno, in
table-opening-height = alto de uno, in
table-opens = abre
table-closes = cierra
table-question = pregunta
table-answer = respuesta
table-value = valor
table-unit = unidad del valor
table-tolerance = tolerancia, in
table-entered = como se anotó
table-who = quién
table-when = cuándo
