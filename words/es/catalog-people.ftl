# Quién decide, los oficios, quién hace una comprobación, y los grupos: palabras que muchas cosas comparten.

catalog-title = Condiciones ocultas en remodelaciones de cocina y baño, casas de Norteamérica
catalog-notice = Las probabilidades y los precios de aquí son casi todos de criterio y lo dicen. Manda el código local, como se adoptó y enmendó; deciden la autoridad competente y el oficio con licencia que se nombra con cada peligro. Nada de esto aprueba un agujero, un corte ni una conexión.

## Grupos
group-bulkhead = Cajón sobre los gabinetes (soffit)
group-drain = Desagües, trampas y ventilaciones
group-supply = Suministro de agua
group-electrical = Electricidad
group-structure = Estructura
group-floor = Pisos y losas
group-walls = Paredes, cielos rasos y acabados
group-hvac = Calefacción, aire y campanas
group-gas = Gas
group-envelope = Paredes exteriores y ventanas
group-history = Trabajos anteriores y animales

## Quién decide
decides-licensed-electrician = electricista con licencia
decides-licensed-plumber = plomero con licencia
decides-licensed-hvac-contractor = contratista de HVAC con licencia
decides-licensed-structural-engineer-or-the-building-official = ingeniero estructural con licencia o el inspector de construcción
decides-local-building-official = inspector de construcción local
decides-local-health-department = departamento de salud local
decides-licensed-plumber-with-the-water-utility = plomero con licencia junto con la compañía de agua
decides-licensed-electrician-with-the-power-utility = electricista con licencia junto con la compañía de luz
decides-licensed-electrician-or-the-service-provider = electricista con licencia o el proveedor del servicio
decides-qualified-chimney-technician-with-the-building-official = técnico de chimeneas calificado junto con el inspector de construcción
decides-licensed-plumber-after-the-slab-is-scanned = plomero con licencia, después de buscar en la losa con detector
decides-licensed-structural-engineer-after-the-slab-is-scanned = ingeniero estructural con licencia, después de buscar en la losa con detector
decides-licensed-asbestos-professional = profesional de asbesto con licencia
decides-licensed-electrician-or-plumber-by-the-kind-of-heat = electricista o plomero con licencia, según el tipo de calefacción
decides-licensed-electrician-for-the-appliance-licensed-plumber-for-the-leak = electricista con licencia para el aparato; plomero con licencia para la fuga
decides-certified-lead-renovator-licensed-asbestos-professional = renovador certificado en plomo; profesional de asbesto con licencia
decides-licensed-mold-assessor-where-the-state-licenses-them-otherwise-a-qualified-remediation-firm = evaluador de moho con licencia donde el estado la da; si no, una empresa de remediación calificada
decides-certified-lead-inspector-risk-assessor-or-renovator = inspector de plomo, evaluador de riesgos o renovador certificado
decides-licensed-plumber-or-heating-contractor = plomero o contratista de calefacción con licencia
decides-licensed-gas-fitter = instalador de gas con licencia
decides-licensed-pest-control-operator-licensed-electrician-for-chewed-cable = operador de control de plagas con licencia; electricista con licencia para el cable roído
decides-licensed-pest-control-operator-licensed-structural-engineer-for-framing = operador de control de plagas con licencia; ingeniero estructural con licencia para la estructura

## Oficios
trade-electrician = electricista
trade-drywall = tablaroca
trade-plumber = plomero
trade-framer = estructurista
trade-roofer = techador
trade-hvac = HVAC
trade-engineer = ingeniero
trade-painter = pintor
trade-floor = pisos
trade-concrete = concreto
trade-carpenter = carpintero
trade-tile = loseta
trade-health-department = departamento de salud
trade-utility = compañía de servicios
trade-excavation = excavación
trade-internet-provider = proveedor de internet
trade-insulation = aislamiento
trade-mason = albañil
trade-scanning = detección
trade-abatement = retiro de asbesto o plomo
trade-demolition = demolición
trade-remediation = remediación
trade-certified-renovator = renovador certificado
trade-siding = revestimiento exterior
trade-gas-fitter = instalador de gas
trade-all = todos
trade-pest = control de plagas
decides-licensed-asbestos-professional-for-suspect-layers = profesional de asbesto con licencia, para las capas sospechosas
decides-licensed-plumber-for-pipes-in-the-wall-local-building-official-for-the-insulation = plomero con licencia para la tubería en la pared; inspector de construcción local para el aislamiento
decides-licensed-structural-engineer-or-the-building-official-where-joists-have-bent = ingeniero estructural con licencia o el inspector de construcción, donde las viguetas se han vencido
