# Respuestas, probabilidades, consejos y razones, iguales en toda pantalla, página y línea.

## Opciones que se dicen igual en todo punto
option-cant-tell = no se puede saber
option-yes = sí
option-no = no

## Respuestas
answer-cant-tell = no se puede saber
answer-not-reached = no se pudo llegar: { $why }
answer-taken-back = retirada
answer-no-check = sin más comprobaciones
answer-check-shows = { $check } muestra: { $conditions }
answer-check-shows-not = { $check } no muestra: { $conditions }
answer-check-open = { $check } deja abierto: { $conditions }
answer-with-remark = { $answer }; { $remark }
answer-entered = { $answer } (escrito «{ $entered }»)
rival-answer = { $answer } ({ $by }, { $when })
quantity = { $number } { $unit }
length-outside = fuera de lo posible aquí, de { $least } a { $most }
year-about = aproximado: { $n } años más o menos
at-place = { $what } ({ $place })
named = { $name }: { $text }

## Probabilidades. Nunca se afirma certeza.
odds-unlikely = poco probable
odds-possible = posible
odds-even = mitad y mitad
odds-likely = probable
odds-expect = cuente con ello
in-10-less = menos de 1 de cada 10
in-10 = { $n ->
    [1] alrededor de 1 de cada 10
   *[other] unas { $n } de cada 10
}
in-10-more = más de 9 de cada 10
band-between = entre { $low } y { $high } de cada 10
band-up-to = hasta { $high } de cada 10
band-from = { $low } de cada 10 o más
in-100-less = menos de 1 de cada 100
in-100 = { $n } de cada 100
in-100-more = más de 99 de cada 100

## Qué movió la probabilidad
reason-far-up = sube mucho: { $question } — { $answer }
reason-up = sube: { $question } — { $answer }
reason-little-up = sube un poco: { $question } — { $answer }
reason-little-down = baja un poco: { $question } — { $answer }
reason-down = baja: { $question } — { $answer }
reason-far-down = baja mucho: { $question } — { $answer }

## Consejo en una o dos palabras
advice-licensed-look-first-short = Primero alguien con licencia
advice-price-in-or-test-short = Incluir o probar
advice-in-base-price-short = En el precio base
advice-below-floor-short = No se menciona
advice-nothing-short = Nada
advice-price-in-short = Incluir
advice-allowance-short = Monto provisional (allowance)
advice-unit-price-short = Precio unitario
advice-exclude-short = Excluir

## Consejo en una frase
advice-licensed-look-first = Detenerse aquí primero: { $until }.
advice-price-in-or-test = Darlo por presente: incluirlo en el precio o, antes de firmar, { $until }. No excluirlo nunca.
advice-in-base-price = El precio base ya lo incluye.
advice-in-base-price-assumed = Casi siempre está en el precio base; aquí se toma así. Preguntar si lo está.
advice-below-floor = Demasiado poco para mencionarlo.
advice-nothing = Sin costo propio.
advice-price-in = Incluir { $sum } en el precio.
advice-allowance = Llevar un monto provisional (allowance) de { $sum }, que se acredita si no se usa.
advice-unit-price = Excluirlo, con un precio acordado de antemano (unos { $sum } si está ahí).
advice-exclude = Excluirlo por su nombre.

## Quién decide
caution-who-decides = { $caution } Quién decide: { $who }; manda el código local.

## Por qué no se sabe algo
why-cant-tell = no se puede saber
why-disagree = las respuestas no coinciden

## Revisiones
look-ask-first-open = sigue abierta una respuesta que podría prohibirla: resuélvala primero
invasive-0 = mirar
invasive-1 = tocar o medir con instrumento
invasive-2 = abre una pieza
invasive-3 = agujerito
invasive-4 = hueco chico
invasive-5 = hueco

## Hallazgos
found = hallado
found-not-there = no estaba
found-not-opened = no se abrió
found-no-entry = todavía sin hallazgo

## La advertencia de toda evaluación
assessment-caution = Una ayuda para el levantamiento, no una inspección, un diseño ni un dictamen de código. «No se vio nada» nunca es «no hay nada». El trabajo de electricidad, plomería, gas, estructura, asbesto, plomo y moho es de la persona con licencia o certificada que se nombra con cada condición, bajo el código adoptado en el lugar.

## Listas recortadas
and-more = { $list } y { $n } más

## Cómo se llegó a una estimación
moved-far-up = sube mucho
moved-up = sube
moved-little-up = sube un poco
moved-little-down = baja un poco
moved-down = baja
moved-far-down = baja mucho
step-others = { $n ->
    [one] una respuesta más
   *[other] { $n } respuestas más juntas
}

## Lo desconocido, dibujado
chances-money = Dinero para lo desconocido, veinte puntos, cada uno una posibilidad de veinte
chances-money-said = La mitad de los casos queda en { $p50 } o menos, ocho de cada diez en { $p80 } o menos, nueve de cada diez en { $p90 } o menos.
chances-days = Días laborables de más
chances-days-said = La mitad de los casos toma { $p50 } días o menos, ocho de cada diez { $p80 } o menos, nueve de cada diez { $p90 } o menos.
chance-even = mitad y mitad
chance-8-in-10 = 8 de 10 por debajo
chance-9-in-10 = 9 de 10 por debajo

## Oficios de los cálculos
calc-trade-drains = Desagües y ventilaciones
calc-trade-framing = Estructura de madera
calc-trade-gas = Gas
calc-trade-electrical = Electricidad
calc-trade-openings = Aberturas y pintura
calc-trade-household = La familia
calc-trade-lights = Luces
calc-trade-lengths = Longitudes y áreas

## Lo que se puede deshacer
act-photo = fotografía { $name }
act-mark = una marca
act-mark-gone = una marca deshecha
act-taken-back = algo deshecho
