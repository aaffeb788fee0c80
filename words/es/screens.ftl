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
houses-none-how = Empiece una con la línea de comandos: underlath new
last-touched = último cambio: { $when }
answered-of = { $answered } de { $wanted } respondidas
photos = { $n ->
    [one] 1 foto
   *[other] { $n } fotos
}
not-assessed = todavía sin evaluar
p80 = P80 { $money }
read-only = En esta versión las respuestas se anotan con la línea de comandos; esta pantalla las muestra.
failed-heading = No se pudo leer el registro
again = Intentar otra vez
foot-label = Siempre a mano
walk = El recorrido
odds-and-money = Pronóstico y dinero
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
odds-none = Todavía sin evaluar
odds-none-how = Evalúela con la línea de comandos: underlath assess
carry = Reserve { $money } para lo desconocido y alcanzará 8 de cada 10 veces
money-rule = Dinero para lo desconocido
days-rule = Días de más
even-odds = mitad y mitad
eight-in-10 = 8 de 10 por debajo
nine-in-10 = 9 de 10 por debajo
mark-said = { $name } { $value }, { $says }
marks-said = { $name }: { $marks }
on-average = { $n ->
    [one] En promedio { $money } y 1 día. { $note }
   *[other] En promedio { $money } y { $n } días. { $note }
}
parts-not-added = Las tres marcas son de la suma, sorteada con las probabilidades tal como están; las partes no se suman.
conditions-heading = Lo que probablemente hay adentro
in-ten = { $n } de 10
dot-note = Punto lleno: la estimación. Punto abierto: la frecuencia de base antes de cualquier respuesta. No haber visto nada nunca quiere decir que no haya nada.
if-there = Si está ahí: de { $low } a { $high }, lo más probable { $likely }.
frozen-at = Fijada el { $when }, catálogo { $catalog }, motor { $engine }.
because = { $n ->
    [one] Qué lo movió: una respuesta
   *[other] Qué lo movió: { $n } respuestas
}
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
not-known = No se sabe: { $what }.
one-change = Un cambio a la vez
how-reckoned = Cómo se calculó
held-against = Comparado con
assumed-heading = Supuesto, porque nadie lo midió ni lo eligió
screens-in-english = En esta versión los cálculos están redactados en inglés.
