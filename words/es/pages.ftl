# Las páginas de un paquete.

## Lo que responden las páginas
pages-title = Lo desconocido en esta casa: dentro de { $sum } en 8 de cada 10 casos
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
pages-concealed = Lo que probablemente está oculto
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
