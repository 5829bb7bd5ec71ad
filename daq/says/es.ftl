### Spanish. A sentence each, by its code, as in en.ftl and in its order. No machinist has read it yet.
### The words, from the trade and from memory, no source looked up; those of measurement as the
### Spanish VIM has them, from memory too (incertidumbre típica, expandida, factor de cobertura):
###   head cabezal · spindle husillo · quill caña · knee ménsula · ram carnero · turret torreta
###   table mesa · gibs regletas · drawbar tirante · vise mordaza, its jaw boca · ring anillo
###   gauge comparador · contact palpador · plunger vástago · lever palanca · its face visor
###   gauge block bloque patrón · shim calza · bolt tornillo · adjuster mando · arm brazo
###   lean inclinación · nod cabeceo · side to side ladeo · front frente · back fondo
###   sweep barrido · reading lectura · stop-at parada, parar en · park estacionar
###   tighten, pull up apretar · slacken aflojar · crack aflojar apenas · nip apretar apenas
###   snug arrimar · backlash holgura · creep ceder · drift deriva · run-out salto · wedge cuña
###   lock-out bloqueo, con candado · audit auditoría · check comprobación · pair check
###   comprobación de dos puntos · verdict dictamen: dentro, fuera, no se puede decidir
###   record registro · ledger libro · guard margen de guarda
### What to do is said to "usted" (gire, apriete); what a button does is an infinitive (firmar), what
### was done a participle or "se". What a file gives (bolts, adjusters) stands where its gender and
### its article do not matter. PLACE() makes a position's code its name.

## What this language calls itself, where one is chosen: on one line

language-name = Español

## Several things in a row

list-more = { $before }, { $next }
list-last = { $before } y { $last }

## A day inside a sentence, where one asks for it: DAY($day)

a-day = { $day } { $month ->
    [1] ene
    [2] feb
    [3] mar
    [4] abr
    [5] may
    [6] jun
    [7] jul
    [8] ago
    [9] sep
    [10] oct
    [11] nov
   *[12] dic
 } { $year }

## The live number, held against the stop-at or against what a bolt may do

to-go = faltan { $size } { $way ->
    [up] hacia arriba
   *[down] hacia abajo
 }
past-then-back = { $size } { $way ->
    [up] hacia arriba
   *[down] hacia abajo
 } y volver
come-back = Vuelva: { $size } { $way ->
    [up] hacia arriba
   *[down] hacia abajo
 }
too-far = Demasiado: { $size } { $way ->
    [up] hacia arriba
   *[down] hacia abajo
 }
there = Ahí está
creeps-on = Aún cede: espere { $seconds } s
stop-within = { $finer ->
    [yes] pare dentro de ± { $band }: este límite es más fino que la parada
   *[no] pare dentro de ± { $band }
 }
leans-now = { $axis } { $lean } ± { $by }
distance-unknown = distancia desconocida
when-sent = { $said }, cuando se envió
movement-unknown = movimiento desconocido
moved-since = Movió { $moved } desde que los tornillos estaban flojos
bolt-moved = Movió { $moved }, se admite { $limit }
bolt-step = Paso { $step } de { $of }
bolt-step-in-all = Paso { $step } de { $of }, { $moved } en total

## What a page says by itself: of the live number and the line it comes by

connecting = Conectando
live = En vivo
not-live = No es en vivo
no-live = Sin lectura en vivo
no-connection = Sin conexión
too-many-screens = Demasiadas pantallas abiertas: cierre una
no-practice-mill = Sin conexión con la fresadora de práctica.
press-the-key = Pulse la tecla del comparador
sent-by-key = Enviado { $age }, con su tecla
last-sent = Sin lectura en vivo: último envío { $age }
# No line breaks within an age.
age-now = ahora mismo
age-seconds = hace{ "\u00A0" }{ $n }{ "\u00A0" }s
age-minutes = hace{ "\u00A0" }{ $n }{ "\u00A0" }min
age-hours = hace{ "\u00A0" }{ $n }{ "\u00A0" }h
settling = No mueva nada
hold-still = No mueva nada…
console-by-phone = La consola, por teléfono:
sound-is-on = El sonido está activado
sound-is-soft = Sonido bajo

## Of the step, its circle and both axes

stage-of = { $stage }: paso { $n } de { $of }
audit-short = Auditoría { $short }
not-recorded = No se registra: nada de lo que pulse ahora se guarda.
spot-next = siguiente
spot-parked = comparador aquí
spot-empty = sin lectura
where-column = columna
where-you = usted está aquí
called-in = DENTRO
called-out = FUERA
called-close = DUDOSO
called-too-close = NO SE PUEDE DECIDIR
called-same = NADA SE MOVIÓ
called-look = MIRE MEJOR
not-measured = aún sin medir
allowed = se admite { $limit }
allowed-over = se admite { $limit } en { $over }

## Of a press

yes-do-it = Sí, hágalo
fill-in = { $field }: rellene esto, por favor.
may-stay-empty = (puede quedar vacío)
or-type = O escríbalo
day-like = Primero el año, como 2026-03-31
digits = Dígitos
digit-back = Quitar el último dígito
working = Trabajando…
sending-again = Aún sin respuesta: se envía otra vez…
unreached = La Pi no respondió. No consta que se haya registrado nada.
came-between = Algo se interpuso: { $what }. Mire otra vez y luego pulse.
step-changed = el paso cambió
refused = Rechazado.
not-done-cut = No se hizo: sin conexión.
not-done-answer = No se hizo: responda en la consola.
not-done-fields = No se hizo: eso se hace en la consola.
not-done-back = No se hizo: no hay nada que retirar.
keep-holding = Siga pulsando para deshacer…
let-go = Suelte
nothing-to-count = Ahora no hay nada para lo que contar.
stop-the-count = Parar la cuenta
press-it-now = pulse ahora…
key-enter = Intro

## Of what a verdict rests on

from-sweep = Del barrido { $n }.
from-round = De la ronda { $n }.
from-sweep-aged = Del barrido { $n }, { $age }.
head-rule = Regla
head-condition = Estado
no-condition = El archivo de la máquina no indica ninguno.
spindle-ran = { $warm ->
    [cold] husillo dejado en frío
   *[warm] husillo calentado en marcha{ $minutes ->
        [0] {""}
        [one] {" "}durante 1 minuto
       *[other] {" "}durante { $minutes } minutos
    }
}
just-ran = { CAP($ran) }.
head-work = Lo que la inclinación hace a la pieza
no-work = El archivo de la máquina no nombra fresa ni pieza.
head-head = Lo que se sabe de este cabezal
fact-error = Error
fact-toward = Apunta a
fact-word = Resultado
fact-u = Incertidumbre típica
fact-expanded = Incertidumbre expandida
fact-k = Factor de cobertura k
fact-dof = Grados de libertad
fact-guard = Margen de guarda
fact-guard-say = El margen se basa en
fact-probability = Probabilidad de conformidad
fact-gauge = Comparador
not-good-enough = No basta para esta tolerancia.
budget-of = Balance de incertidumbre: { $axis }
budget-what = Qué puede estar desviado
dof-many = muchos

## The pages: their heads, and what stands on them from the first

brand = headsweep
title-bench = { $machine }: banco de práctica
title-console = { $machine }: consola
title-wall = { $machine }: pared
title-practice = { $machine }: fresadora de práctica
title-problem = headsweep: { $status }
aria-circle = Dónde se lee el comparador, visto desde donde usted está
aria-number = Número en vivo
aria-axes = Ambos ejes
aria-cautions = Precauciones
practice-mill = Fresadora de práctica
aria-swing = Girar el comparador
waiting-first = A la espera de la primera lectura
stop-at = Parar en
aria-say = Qué hacer ahora
cannot-be-shown = Esta página no se puede mostrar
all-screens = Todas las pantallas
aria-others = Otras opciones
numbers = Números
why-this = ¿Por qué esto?
aria-rare = Terminarla
aria-around = Otras pantallas
aria-language = Idioma de esta pantalla
wall-screen = Pantalla de pared
practice-bench = Banco de práctica
aria-next = Siguiente
sound = Sonido
keys-and-pedal = Teclas y pedal
go-back = Volver
keys-enter = el botón grande; manténgala 2 segundos para deshacer
keys-to = a
keys-digits = los demás botones, según su número
keys-u = deshacer
keys-c = cuenta atrás 3-2-1, suelte, y entonces pulsa el botón grande; otra vez, o Esc, la detiene
keys-single = Usar de 1 a 9, U y C
keys-count = Mostrar la cuenta atrás
pedal-is = Pedal:
pedal-set = Configurar el pedal
pedal-enter = Solo Intro
done = Hecho
which-screen = ¿Qué pantalla es esta?
which-machine = ¿Qué máquina?
console = Consola
console-is = teléfono, tableta o teclado: leer, pulsar, responder
wall-is = la imagen grande, que se lee desde la máquina
bench-is = consola y fresadora de práctica, una al lado de la otra
no-machine = Aún no hay ninguna máquina configurada.
setup-is = Instalación: comparadores, máquinas y el registro
title-setup = headsweep: instalación
setup = Instalación
setup-says = Qué dicen los archivos del taller y cómo está cada parte. Aquí no se cambia nada: eso se hace desde una pantalla emparejada, o con un editor, y vale cuando los archivos se leen de nuevo.
setup-lost = La Pi no responde: lo que hay aquí es antiguo.
gauges = Comparadores
machines = Máquinas
latest-check = Última comprobación con longitudes conocidas
check-passed = Superada
check-not-passed = No superada
no-check = No consta ninguna de este comparador.
frames-since = Tramas desde que se abrió el puerto:
frames-good = buenas,
frames-bad = malas,
frames-damaged = de ellas dañadas en el camino (otro valor de control que el de sus bytes)
record = Registro y disco
disk = Disco
rows = Filas
last-hash = Hash de la última fila
unsafe-machine = { $machine }: { $title }
check-span = el { DAY($day) }: los errores abarcan { $span }, se admite { $allowed }
last-good-frames = Últimas tramas buenas
last-bytes = Últimos bytes, sean lo que sean
last-bad = Dónde hubo por última vez una trama mala


## What is wrong with a table: a body, an address, a command or a shop's file

in-their-words = { $words }
lines = { $first }{"\u000A"}{ $rest }
fault = { $where }: { $what }
fault-at = { $where }: { $path }: { $what }
in-body = cuerpo
in-query = consulta
in-callout = cota
in-command = orden { $kind }
found-allowed = se encontró { $found }; se admite: { $allowed }
missing-key = falta; se admite: { $allowed }
unknown-key = clave desconocida { $key }; conocidas: { $known }
unknown-key-near = clave desconocida { $key }; la conocida más parecida: { $near }
found-table = una tabla
found-list = una lista
found-nothing = nada
found-digits = un número de más de { $digits } dígitos
allows-text = texto
allows-whole-number = un número entero
allows-number = un número
allows-true-false = true o false
allows-date = una fecha como 2028-03-31
allows-table = una tabla
allows-one-of = uno de { $choices }
allows-or = { $first } o { $other }
allows-list = una lista, cada elemento { $item }
allows-within = { $what }, { $limits }
allows-quantity = { $kind ->
    [length] una longitud como "100 mm" o "4 in"
    [slope] una pendiente como "0.025 mm/300 mm" o "0.001 in/12 in"
    [time] un tiempo como "0.5 s" o "200 ms"
    [angle] un ángulo como "15 deg" o "0.1 rad"
    [torque] un par como "60 N m" o "45 lbf ft"
   *[temperature] una temperatura como "20 °C" o "68 °F"
 }
limit-least = al menos { $limit }
limit-above = más de { $limit }
limit-most = como máximo { $limit }
limit-both = { $first } y { $other }
id-no-uuid = id: se encontró { $found }; se admite: un UUID
no-such-row = expects_seq: se encontró { $found }; se admite: de 0 a { $last }
not-one-callout = callout: se encontró { $found ->
    [none] ninguno
   *[other] { $found }
 }; se admite: uno de bore, wall, face
wider-than-cutter = { $key }: se encontró { $found } mm; se admite: hasta los { $cutter } mm de la fresa
toml-unread = no se puede leer: { $why }
toml-no-utf-8 = línea { $line }: se encontró un byte que no es UTF-8; se admite: un archivo de texto UTF-8
toml-none = no es TOML: { $why }
toml-too-deep = se encontraron corchetes demasiado anidados; se admite: unos pocos, uno dentro de otro
toml-too-many-digits = se encontró un número de miles de dígitos; se admite: unos pocos

## What a press is refused for, whatever the step

payload = { $problems }
no-audit = No hay ninguna auditoría abierta en esta máquina.
another-audit = Eso era para otra auditoría; ahora está abierta { $open }.
no-such-command = tipo de orden: se encontró { $found }; se admite: { $allowed }
not-this-step = Eso no corresponde a este paso ({ $step }); se pide: { $asked }.
no-samples-since = No hay muestras desde que se tomó la lectura: tómela otra vez.
not-settled = El número no se había asentado: tome la lectura otra vez.
off-contact = Sin contacto{ $at ->
    [unknown] {""}
    [station] {""}
   *[other] {" "}({ PLACE($at) })
 }. El palpador no está sobre la superficie: el comparador lee { $reads }, como en el aire. Bájelo y tome la lectura otra vez. Si está abajo, el comparador se puso a cero: repita la prueba de toque.{ $at ->
    [station] {""}
   *[other] {" "}Si no alcanza, el cabezal está fuera de su escala.
 }
end-of-travel = El comparador está al final de su recorrido{ $at ->
    [unknown] {""}
    [station] {""}
   *[other] {" "}({ PLACE($at) })
 }: esto no es una lectura. Póngalo con menos precarga{ $at ->
    [station] {""}
   *[other] , o acerque antes el cabezal con una escala
 }.
maybe-stuck = El número no ha cambiado desde hace un rato: empuje el palpador y suéltelo. Si el número lo sigue, pulse otra vez. Si no, el comparador está atascado: arréglelo antes.
nothing-to-take-back = Aquí no se puede retirar nada: { $of ->
    [check] una ronda terminada queda en la lista. Vuelva a leer todo.
   *[head] lo que se giró queda girado, y un barrido terminado queda en la lista. Haga otro barrido.
 }

## The card of the table, before anything else: common practice, no source

table-ready = Mesa despejada y limpia, todo bloqueado.
table-ready-how = Haga estas cuatro cosas; luego pulse y márquelas.
table-tick = { $tick ->
    [bare] Mordaza y chavetas fuera, mesa despejada
    [clean] Sin rebabas ni virutas: piedra y trapo a la mesa{ $seat ->
        [ring] {" "}y a ambas caras del anillo
        [plate] {" "}y a ambas caras de la placa
        [block] {" "}y al bloque
       *[table] {""}
     }
    [centred] Mesa centrada y bloqueada, regletas ajustadas
   *[locked] { $z ->
        [powered] Caña y Z bloqueadas
       *[knee] Ménsula y caña bloqueadas
     }; tornillos de carnero, torreta y articulación apretados
}
table-is-ready = Hecho: marque las cuatro
table-why = Qué no se marca, y por qué
temperatures-such-as = { $seat ->
    [ring] Taller / máquina / anillo, como { $unit ->
        [in] 68 / 70 / 71 °F
       *[mm] 20 / 21 / 22 °C
     }
    [plate] Taller / máquina / placa, como { $unit ->
        [in] 68 / 70 / 71 °F
       *[mm] 20 / 21 / 22 °C
     }
   *[other] Taller / máquina, como { $unit ->
        [in] 68 / 70 °F
       *[mm] 20 / 21 °C
     }
 }
thermometer-number = Número del termómetro
wrench-number = Número de la llave dinamométrica
vise-is-heavy = Una mordaza pesa: dos personas o un polipasto. La piedra, con suavidad sobre la mesa; guantes contra las rebabas.
table-was-readied = se preparó la mesa
table-not-done = No se hizo: { $what }. Por qué: { $why }
table-temperatures = Temperatura: { $of }
degrees = { $degrees } { $unit ->
    [in] °F
   *[mm] °C
 }
degrees-of = { $of ->
    [machine] máquina
    [ring] anillo
    [plate] placa
   *[room] taller
 } { $degrees } { $unit ->
    [in] °F
   *[mm] °C
 }
temperatures-apart = { $seat ->
    [plate] Placa
   *[ring] Anillo
 }, máquina y taller difieren en { $apart }: queda más duda. Es menor tras unas horas juntos.
temperatures-too-many = temperatures: se encontró { $found }; se admite: { $allowed } como máximo, en el orden de la tarjeta
table-thermometer = Termómetro n.º { $number }
tool-overdue = { $tool ->
    [wrench] Llave dinamométrica
   *[thermometer] Termómetro
 } { $number }: calibración vencida; era válida hasta el { DAY($day) }.
table-wrench = Llave dinamométrica n.º { $number }
table-without-why = Sin marcar: { $what }. Márquelo, o diga por qué no.
temperature-no-temperature = temperatura: se encontró { $found }; se admite: un número y su unidad, como "20 °C" o "68 °F"
temperature-implausible = temperatura: se encontró { $found }; se admite: de 0 °C a 50 °C (de 32 °F a 122 °F)

## Opening an audit, the preparation card, the touch test

no-such-machine = No hay ninguna máquina llamada { $machine } en los archivos de este taller.
audit-open = Hay una auditoría abierta en esta máquina. Termínela o abandónela antes.
machine-unsafe = La auditoría anterior no dejó esta máquina segura para funcionar: arregle eso antes.
gauge-in-use = El comparador { $gauge } está en uso: auditoría { $audit } en { $machine }.
other-gauge = El número del comparador es { $found }; su archivo dice { $known }. Ponga el comparador correcto, o corrija su archivo.
number-unread = serial_number: no se encontró nada; se admite: el número del comparador, o last_two, sus dos últimos caracteres
ram-angle-no-angle = ram_angle: se encontró { $found }; se admite: un ángulo como "15 deg" o "0.1 rad"
ram-angle-too-far = ram_angle: se encontró { $found }; se admite: de -60 deg a 60 deg
not-zeroed-carry-on = No se puso a cero: continúe.
zeroed-at-the-push = Entretanto el comparador se puso a cero: déjelo colgar libre y tome la lectura otra vez.
pushed-unmoved = El número no se movió. Empuje el palpador y suéltelo; luego pulse otra vez. Si sigue sin moverse, el comparador está atascado.
pushed-wrong-way = El número fue al revés ({ $moved }): el archivo del comparador dice que cuenta hacia { $counts ->
    [up] arriba
   *[down] abajo
 } al empujarlo. Empuje el palpador, o corrija el archivo.
pushed-not-back = No volvió: { $off }. Brazo flojo, o palpador que se agarra. Arréglelo y empuje otra vez.
flick-not-back = Tras el toquecito no volvió: { $off }. Brazo flojo, o palpador que se agarra. Arréglelo, dé tres toquecitos y tome la lectura otra vez.
contact-came-back = El palpador volvió.
gauge-answers = El comparador responde: { $moved }.

## After the service was off

card-unread = Falta leer la tarjeta.
touched-while-watched = touched: se encontró true; se admite: false, porque la pantalla no estuvo apagada
cracked-untold = cracked: se encontró true; se admite: false, porque no había que aflojar tornillos
off-since-proof = La pantalla estuvo apagada. ¿Se tocó algo desde el último barrido? Entonces haga otro.
off-arm-away = La pantalla estuvo apagada: ¿sigue puesto el candado? Entonces continúe aquí; brazo y comparador vuelven después.
off-arm-out = ¿Brazo y comparador ya fuera? Póngalos antes.
touched-while-off = El comparador o el cabezal se tocaron con la pantalla apagada.

## Sweeping

place-unsaid = Diga dónde está el comparador: sigue { PLACE($next) }.
slow-turn-do = Gire despacio una vuelta y toda de regreso
slow-turn-how = Del frente una vuelta hasta el frente y de regreso por el mismo camino, unos 12 s cada una, tan parejo como pueda la mano; luego pulse.
slow-turn-done = Girado, ida y vuelta
slow-turn-so-far = En { PLACE($place) }: { $done } de { $of }
slow-turn-slower = Más despacio
slow-turn-not-offered = Este barrido se lee parado, punto por punto.
slow-turn-not = No se tomó. { $why }
slow-turn-gap = El comparador calló { $seconds } s por el camino: gire otra vez.
slow-turn-odd = En { PLACE($place) } el círculo se aparta { $found } { $unit }: ¿una viruta, una ranura, un bulto? Limpie y gire otra vez.
row-slow-turn = Girado despacio, ida y vuelta, en { $seconds } s: { $samples } muestras, el comparador con { $lag } ± { $u } s de retraso, la mano desigual en { $uneven } %
round-no-switch = No se pasó ningún interruptor del collar: ¿está puesto su cable? Una vuelta y de regreso, de frente a frente.
round-half-way = No fue una vuelta y de regreso: acabó en { PLACE($place) }, { $quarters } cuartos del camino. Empiece otra vez al frente.
round-went-back = La mano retrocedió en { PLACE($place) }: una vuelta en un sentido y luego toda de regreso. Empiece otra vez al frente.
round-missed = Ningún interruptor avisó entre { PLACE($before) } y { PLACE($after) }: no cerró, o su cable está suelto. Empiece otra vez al frente, más despacio.
round-too-few = La marca del frente se pasó { $marks ->
    [one] una vez
   *[other] { $marks } veces
 }: hace falta una vez al empezar, una al dar la vuelta y una al acabar.
round-unlike = { $forth } s de ida y { $back } s de regreso: faltó la marca, o avisó dos veces. Empiece otra vez al frente.
round-too-fast = Demasiado rápido: { $turn } s por vuelta, al menos { $least } s. Más despacio, tan parejo como pueda la mano.
round-few-samples = El comparador envió { $samples } números por el camino; hacen falta { $least }: gire más despacio.
place-read = { CAP(PLACE($position)) }: ya se leyó. Sigue { PLACE($next) }{ $times ->
    [one] {""}
   *[other] {" "}otra vez
 }.
no-sweep-to-compare = Aún no hay barrido con que comparar uno girado: haga antes un barrido.
no-ring-to-turn = Solo se puede girar media vuelta un anillo o una placa: el archivo no nombra ninguno.
arm-was-out = El brazo estuvo fuera desde el último barrido: no hay con qué compararlo.
choose-before-parking = Eso se elige antes de estacionar el comparador, con todos los tornillos apretados.
not-to-be-first = Solo puede ir primero un eje que esté fuera y se vaya a mover.
left-alone-without-why = Diga por qué se deja: consta con su motivo.
left-alone-already = Ese eje ya se dejó.
nothing-to-square = Nada de lo que está fuera se puede ajustar: recoja y firme.
sweep-again-without-why = Diga por qué quiere otro barrido: consta con su motivo.
bolts-loose = Apriete antes los tornillos: un barrido vale solo con todo apretado.
off-scale-place-unsaid = Diga dónde está el comparador fuera de su escala.
off-scale-after-sweep = Solo se registra fuera de escala un cabezal que ningún barrido ha leído aún.
little-preload = Poca precarga en { PLACE($position) }: { $pushed } hacia dentro.
near-end-of-travel = Cerca del final del recorrido del comparador en { PLACE($position) }: quedan { $left }.
turned-half-round = { $turned ->
    [ring] el anillo se giró media vuelta
   *[arm] el brazo se sujetó de nuevo, a media vuelta en el husillo
 }
off-scale = fuera de escala en { PLACE($position) }
off-scale-beyond = fuera de escala, más allá de { $by } { $unit } en { PLACE($position) }
closer-because = { CAP(PLACE($position)) }: { $how }.

## Parking for a move, and what is asked there

not-parked = No hay lectura de estacionado: estacione y lea.
move-not-seen-from = Desde { PLACE($position) } este movimiento no se puede vigilar: estacione en { PLACE($best) }.
gauge-hardly-moves = Aquí el comparador apenas se mueve: estacione en { PLACE($better) }.
parked-elsewhere = El comparador estaba estacionado en { $parked ->
    [unknown] su punto
   *[other] { PLACE($parked) }
 }: lea ese punto otra vez.
nothing-asked = No se preguntó nada.
no-such-answer = answer: se encontró { $found }; se admite: { $allowed }
question-open = Responda antes a la pregunta.
stop-answered-not-pressed = Pulse que paró a propósito: el comparador se lee tal como está ahora.
stand-unsure = No se sabe bien dónde está ahora el cabezal: compruebe antes este eje.
spot-differs = Este punto leía { $was }, ahora { $now }: ¿puesto a cero o golpeado?
went-other-way = Este punto leía { $was }, ahora { $now }: ¿giró al revés?
spot-like-another = Este punto leía { $was }, ahora { $now }, como leía { PLACE($other) }: ¿está el comparador en { PLACE($other) }?
was-taken = Tomada: { $value }
at-large-other-way = ¿Se dio la vuelta al revés?
at-large-like-another = Lee como en { PLACE($other) }: ¿está allí?
at-large-drift = ¿Deriva sin parar, como al calentarse?
answer-read-again = Lo he movido: leer otra vez
answer-sweep-again = No es seguro: otro barrido
answer-check-again = No es seguro: comprobar otra vez este eje
answer-other-way = Sí, al revés
answer-only-zeroed = Solo puesto a cero: continuar
answer-set-anew = Solo se reajustó el palpador: continuar

## The move, the pair check, the bolts

no-stop-at = No hay lectura de parada: estacione y lea antes este punto.
place-not-wanted = { $position ->
    [none] Ninguna posición
   *[other] { CAP(PLACE($position)) }
 } no se pide ahora: sigue { PLACE($next) }.
tight-already = Esos tornillos ya están apretados.
bolts-not-watched = Los tornillos de este eje no se aprietan uno por uno.
no-such-bolt = bolt: se encontró { $found }; se admite: { $next ->
    [none] {""}
   *[other] { $next }, que es el siguiente{ $again ->
        [none] {""}
       *[other] {"; "}
     }
 }{ $again ->
    [none] {""}
   *[other] { $again } otra vez, que hay que corregir
 }.
stop-far = { $way ->
    [wrong] Al revés, { $by }
   *[right] { $by }
 } { $where ->
    [past] de más
   *[short] por girar
 }: ¿paró aquí a propósito?
stop-past = { $by } de más: vuelva atrás y luego pulse.
answer-brought-back = Vuelto atrás
answer-stays = Paró aquí a propósito
creeps-still = Aún cede, { $by } más o menos: espere { $seconds } s y luego lea. Manos fuera.
answer-read-now = Leer ahora
went-back = Al soltar, volvió { $by }: { $of ->
    [backlash] su holgura. Llegar con el otro lado subiendo al final la absorbe
   *[creep] como suele al quitar la mano. La próxima parada lo tiene en cuenta
 }.
answer-stopped = Sí, paró a propósito
answer-turn-back = No, girar atrás
answer-turn-further = No, girar más
stopped-off = Paró { $by } { $where ->
    [past] más allá de
   *[short] antes de
 } la parada. La comprobación lo toma tal como está.
went-away = El número se alejó de la parada: { $adjuster } actúa al revés, o se giró otro. La comprobación muestra dónde está el cabezal.
another-adjuster = El número se movió, pero { LOWER($axis) } no: ¿se giró otro mando? De este movimiento no se aprende nada.
led-astray = { $axis } no va adonde dice el número: el pivote del archivo de la máquina está mal, o algo se golpeó. No se da lectura de parada hasta que un giro a mano muestre cómo responde.
answered-backwards = { $axis } fue al revés de lo que decía el número: el pivote del archivo de la máquina está en el lado contrario. La próxima parada lo tiene en cuenta; lo aprendido se guarda cuando un segundo giro lo confirme. Corrija el archivo.
knocked = Las lecturas no cuadran con el movimiento: se golpeó el cabezal, el brazo o la superficie, o el pivote del archivo de la máquina está muy mal. De este movimiento no se aprende nada.
knocked-while-tight = Esto no es lo que mover { LOWER($moved) } le hace a { LOWER($axis) }: se golpeó el cabezal, el brazo o la superficie, se confundió un punto, o el carnero está girado de otro modo que el indicado. De ello no se aprende nada.
tightened-read-again = { $axis } lee { $by } distinto que antes de apretar: ¿un golpe, o saltó el número? Lea otra vez ambos puntos.
tightened-too-far = { $axis } está { $by } distinto que antes de apretar, más de lo que debería hacer el apriete: ¿un golpe? De ello no se aprende nada si no se repite.

## What the gauge does by itself

no-zero-in-samples = En estas muestras no hay ningún cero.
lifted-for-block = El palpador se levanta para mover el bloque: eso no es un cero.
zero-asked-already = Eso ya se preguntó.
zero-expected = Se giró hasta donde lee cero: eso no es una puesta a cero.
nothing-noticed = No se notó nada desde el último paso.
not-shown-by-samples = Estas muestras no lo muestran.
number-went-to-zero = El número fue a cero: ¿se puso a cero el comparador?
answer-not-zeroed = No lo puse a cero: continuar
answer-was-zeroed = Sí, se puso a cero
zeroed-read-again = Puesto a cero: lea otra vez este punto.
zeroed-start-again = Puesto a cero a la mitad: empiece otra vez por la primera posición.
zeroed-noted = Puesto a cero: anotado.
zeroed-or-lifted = Puesto a cero, o palpador levantado: déjelo colgar libre y tome la lectura.
zeroed-while-loose = Puesto a cero con los tornillos flojos: compruebe otra vez este eje.
away-while-parked = El comparador estuvo ausente: lea otra vez este punto.
away-while-loose = El comparador estuvo ausente y los tornillos están flojos: compruebe otra vez este eje.
away-in-check = El comparador estuvo ausente a mitad de la comprobación: empiécela otra vez.
unit-changed = Se pulsó la tecla de unidad: ahora todo va en { $unit ->
    [in] pulgadas
   *[mm] milímetros
 }.
travel-ended = El comparador está al final de su recorrido: pare y colóquelo de nuevo.
contact-lifted = El palpador no toca la superficie: baje el comparador.
number-jumped = El número saltó: ¿prefijado o golpeado? Lea otra vez.
jumped-at-rest = El número pasó a otro de golpe, más rápido que un giro a mano: ¿prefijado, su tecla de unidad, o un golpe? Tras pulsar una tecla, “{ $touch }”; tras un golpe, retire lo leído y léalo otra vez. Si solo siguió girando, continúe.
number-stuck = El número no ha cambiado desde hace un rato: empuje el palpador y suéltelo.
number-moves = El número se mueve de nuevo.

## Clearing away and signing

stopped-without-why = Diga por qué el cabezal se deja como está: el registro lo mostrará.
no-as-found = No hay un barrido completo del cabezal como se encontró que firmar.
no-as-left = No hay un barrido completo desde que se tocaron los tornillos: haga antes un barrido.
signed-by-nobody = done_by: no se encontró nada; se admite: el nombre o las iniciales de quien hizo la auditoría
found-and-left-differ = as_left: se encontró { $left }; se admite: { $found }, porque no se aflojó nada: el cabezal se deja como se encontró
as-found-never-read = as_found: se encontró { $found }; se admite: nada, porque ningún barrido leyó el cabezal como se encontró
no-such-sweep = { $field }: se encontró { $found }; se admite: { $allowed }
sweep-without-why = { $field }_why: no se encontró nada; se admite: por qué vale el barrido { $chosen } y no el primero { $field ->
    [as_found] antes de aflojar nada
   *[as_left] después del último apriete
 }, que es el barrido { $first }
no-disposition = disposition: no se encontró nada; se admite: qué pasa con el trabajo hecho desde entonces, porque la máquina se encontró fuera de tolerancia
last-good-no-date = last_good: se encontró { $found }; se admite: el día en que constaba por última vez que la máquina estaba bien, primero el año, como 2026-03-31
last-good-ahead = last_good: se encontró { $found }, un día aún por venir; se admite: hoy ({ $today }) o antes
abandoned-without-why = Diga por qué se abandona la auditoría.
nothing-unsafe = Aquí nada consta como peligroso.
## The terms of an uncertainty, and where each number comes from

term-repeatability = Cuánto coincide la lectura de un punto cuando el comparador vuelve a él
term-place = Dónde estaba el comparador, con una mano que gira desigual
term-resolution = El último dígito del comparador
term-friction = Rozamiento del vástago en un brazo elástico
term-scale = La escala del comparador
term-local = El error del comparador en el corto tramo usado
term-certificate = El certificado del comparador
term-since = La deriva del comparador desde su certificado
term-temperature = La temperatura { $seat ->
    [ring] del anillo
    [plate] de la placa
    [block] del bloque
    [table] de la mesa
   *[other] de { $seat }
 }
term-lever = El ángulo de la palanca con la superficie
term-radius = El radio del barrido
term-parallel = Vástago no paralelo al husillo
term-axial = La subida y bajada del husillo en una vuelta
term-wedge = { $seat ->
    [block] El bloque
    [ring] La cuña del anillo
    [plate] La cuña de la placa
    [table] La cuña de la mesa
   *[other] La cuña de { $seat }
 }
term-seating = Cómo asienta { $seat ->
    [ring] el anillo
    [plate] la placa
    [block] el bloque
    [table] la mesa
   *[other] { $seat }
 }
term-flatness = La forma de la superficie a lo largo del círculo
term-return = Deriva que no fue constante
term-zero = El cero del comparador
term-sag = La flexión del brazo
term-force = La fuerza de contacto
term-blocks = Los bloques patrón
term-grown = Dilatación desigual de comparador y bloques
term-unlike = Comparador y bloques a distinta temperatura
term-square = Comparador no perpendicular a los bloques
note-blocks = del certificado del juego, U/k de cada bloque; de ambas pilas
note-of-check = agrupado sobre las repeticiones de la comprobación; √2 de una lectura para dos
note-of-two-digits = dígito/√6 para la diferencia de dos lecturas
note-grown = lo que se dilata cada uno por kelvin, con su duda, por la distancia a 20 °C (ISO 1); en cualquier punto dentro de eso
note-unlike = dentro de { $kelvins } K, { $rested ->
    [yes] en reposo una hora o más
   *[no] sin una hora de reposo
 }: el acero se dilata 11.5e-6 por K (ISO 3650) en la longitud intermedia; en cualquier punto dentro de eso
note-square = lee menos que la longitud en uno partido por el coseno, dentro de medio grado; en cualquier punto dentro de eso

note-repeatability = agrupado sobre las visitas; √2 de una lectura para dos puntos, más donde se quita una deriva
note-repeatability-assumed = supuesto hasta que más visitas lo digan; √2 de una lectura para dos puntos
note-measured-on = medido el { DAY($day) }: { $what }
note-repeatability-bench = agrupado sobre las repeticiones de la comprobación del comparador, hasta que más visitas lo digan; √2 de una lectura para dos puntos
note-follows-bench = agrupado sobre las repeticiones de la comprobación del comparador, hasta que más visitas lo digan; tanto como el resultado sigue a cada lectura
note-hysteresis = la mitad de lo que subida y bajada difirieron en la comprobación del comparador, al menos medio dígito; en cualquier punto dentro de eso
note-of-samples = de todas las muestras de ambos sentidos, por sumas sobre tramos del círculo
note-place = mano, retraso del visor y lugares de los interruptores, por lo empinado del círculo ahí
note-resolution = dígito/√6 para una diferencia cuando está quieto, menos cuando se mueve
note-friction = siempre llegando por el mismo lado; lo que queda, en cualquier punto dentro de su cota, menos lo que las visitas muestran de ello
note-flicked = dispersión agrupada de { $times } retornos del brazo tras un toquecito, más por ser pocos
note-flicks-in-count = { $times } retornos del brazo tras un toquecito coinciden; un dígito puede ocultar dígito/√12
note-flicks-in-file = { $times } retornos del brazo tras un toquecito coinciden, pero un dígito oculta más de lo que dice el archivo: en cualquier punto dentro de su cota
note-scale = su parte de la diferencia leída, en cualquier punto dentro de su cota
note-local = en cualquier punto dentro de su cota, menos medio dígito; el error en todo el recorrido sería exagerado
note-local-checked = lo peor que su última comprobación mostró en un tramo corto, incluido su dígito: en cualquier punto dentro de ello
note-certificate = U/k de su error en un punto; una diferencia toma dos, la mitad común a ambos: una vez
note-no-certificate = el archivo del comparador no nombra la incertidumbre de ningún certificado
note-since = su deriva por año, por los años transcurridos, en cualquier punto dentro de eso
note-temperature = un lado más caliente que el otro: el acero se dilata 11.5e-6 por degC (manual) en su espesor, en cualquier punto dentro de eso; cómo se inclina el cabezal al calentarse es su estado, no se cuenta
note-temperature-read = leído dentro de { $apart } K de máquina y taller, y 0.5 K por el termómetro: el acero se dilata 11.5e-6 por K (manual) en su espesor, en cualquier punto dentro de eso
note-temperature-more = leído a { $apart } K de la máquina o del taller, más de lo que el archivo prevé, y 0.5 K por el termómetro: el acero se dilata 11.5e-6 por K (manual) en su espesor, en cualquier punto dentro de eso
note-lever = por el coseno de un ángulo desviado en su duda, en cualquier punto dentro de eso
note-radius = la diferencia crece con el radio; semiamplitud entre √3
note-parallel = lee más que la altura en uno partido por el coseno
note-arm-turned = el brazo se sujetó a media vuelta para un segundo barrido: cambia de signo
note-both-gauges = mueve ambos comparadores por igual
note-axial = se ve igual que una inclinación; como máximo el doble de su amplitud, en cualquiera de los ejes: /√3
note-axial-known = se ve igual que una inclinación; el doble de su amplitud, no se sabe en qué parte de la vuelta: /√2
note-same-block = el mismo bloque en cada punto
note-put-down = se coloca de nuevo en cada punto, en cualquier punto dentro de su cota
note-turned = { $seat ->
    [ring] el anillo se giró
    [plate] la placa se giró
    [block] el bloque se giró
    [table] la mesa se giró
   *[other] { $seat }: se giró
 } media vuelta para un segundo barrido: cambia de signo
note-wedge-known = se sabe su tamaño, no su dirección: /√2
note-wedge = como máximo eso, en cualquiera de los ejes: /√3
note-seating = se ve igual que una inclinación; como máximo eso, en cualquiera de los ejes: /√3
note-return = la mitad del error de retorno, menos la dispersión de dos lecturas, o la deriva del archivo si es mayor: /√3, más donde todos los puntos salvo el primero cuentan en un sentido
note-flatness = ondas que estas posiciones toman por inclinación: la mitad de pico a valle, /√3
note-flatness-seen = hasta la sexta onda, con estas posiciones no entra en la inclinación
note-same-spots = igual en cada punto
note-bar-turned = eliminado al girar la barra media vuelta
note-opposite = igual en puntos opuestos

## What a sweep says against itself

return-error = De vuelta en la primera posición, el comparador lee { $found } { $unit } distinto; se admite { $allowed }. Algo se movió: revise lo que sujeta el comparador y el palpador, y empiece otra vez.

# A steady drift
drift-asked = De vuelta en la primera posición, el comparador lee { $found } { $unit } distinto; se admite { $allowed }. ¿Deriva { $rate } { $unit } por minuto todo el tiempo, como al calentarse una máquina?
drift-steady = El comparador deriva { $rate } { $unit } por minuto, según se dijo constante: se quita; quedan en duda hasta { $left } { $unit } en ambos sentidos.
answer-steady = Sí, deriva constante: quitarla
answer-sweep-anew = No es seguro: revisar soporte y palpador, otro barrido
drift-was-asked-about = se preguntó por una deriva
drift-was-judged = se juzgó la deriva

# What seems to have happened
is-ram-swung = ¿Está girado el carnero unos { $angle }° en sentido { $way ->
    [left] antihorario
   *[right] horario
}?
were-spots-exchanged = ¿Se cambiaron entre sí estos dos puntos?
was-it-zeroed = ¿Se puso a cero el comparador, o se recolocó?
answer-use-it = Sí: usar eso
answer-was-knocked = No: fue un golpe
answer-not-sure = No es seguro: continuar
ram-looks-swung = Parece un carnero girado unos { $angle }° en sentido { $way ->
    [left] antihorario
   *[right] horario
}: mírelo. De lo hecho desde el último barrido no se aprende nada.
ram-taken-for-swung = Parece un carnero girado unos { $angle }° en sentido { $way ->
    [left] antihorario
   *[right] horario
}, como antes: se usa desde ahora.
fell-back = { $axis } volvió atrás al soltarlo, no más que la holgura de su mando. De este movimiento no se aprende nada.
crept = { $axis } volvió un poco atrás al soltarlo. De este movimiento no se aprende nada.
ram-was-asked-about = se preguntó si el carnero está girado
surmise-was-answered = se respondió qué había pasado
row-surmise = { $key ->
    [use] Sí: se usa
    [knocked] No: fue un golpe
    [not-sure] No es seguro: se usa si se repite
   *[check-again] No es seguro: leer otra vez
}
row-guess = { $share } %: { $kind ->
    [knocked] un golpe
    [swung] el carnero está girado, { $angle }°
    [other-side] el pivote está en el otro lado
    [elsewhere] el pivote está en otra parte
    [fell-back] volvió atrás por su holgura
    [crept] volvió al soltarlo
    [other-adjuster] se giró el otro mando
    [exchanged] se cambiaron entre sí ambos puntos
    [other-way] el barrido fue en el otro sentido
   *[zeroed] el comparador se puso a cero
}
row-guess-used = Desde ahora se da por girado así el carnero.

spare-equation = El centro de izquierda–derecha no está a nivel con el centro de frente–fondo: { $found } { $unit } de diferencia; se admite { $allowed }. Una viruta bajo un contacto, un punto tomado en mal lugar, o el comparador puesto a cero por el camino: limpie y haga otro barrido.
form = El centro de izquierda–derecha no está a nivel con el centro de frente–fondo: { $found } { $unit } de diferencia, como antes; se admite { $allowed }. Ahí la superficie misma no es plana.
second-harmonic = La superficie misma no es plana: a lo largo de { $high ->
    [left-right] izquierda–derecha
    [back-right-front-left] fondo derecha–frente izquierda
    [front-back] frente–fondo
   *[back-left-front-right] fondo izquierda–frente derecha
 } está { $found } { $unit } más alta que a lo largo de { $low ->
    [left-right] izquierda–derecha
    [back-right-front-left] fondo derecha–frente izquierda
    [front-back] frente–fondo
   *[back-left-front-right] fondo izquierda–frente derecha
 }; se admite { $allowed }. La inclinación no se ve afectada.
aliasing = Con { $positions ->
    [3] tres
    [4] cuatro
    [5] cinco
    [6] seis
    [7] siete
    [8] ocho
   *[other] { $positions }
 } posiciones { $tells ->
    [nothing] una superficie que no es plana se lee como inclinación y nada lo puede descubrir.
    [partly] repartidas así, una superficie que no es plana se lee en parte como inclinación.
    [hollow] se nota un hueco o un lomo; una superficie con tres zonas altas alrededor del círculo se lee como inclinación.
   *[most] la forma de la superficie no entra en la inclinación hasta { $waves ->
        [3] tres
        [4] cuatro
        [5] cinco
        [6] seis
        [7] siete
        [8] ocho
       *[other] { $waves }
     } zonas altas alrededor del círculo.
 }
elsewhere = El cabezal no está donde lo dejaron las últimas lecturas: ¿se golpeó, o la superficie se asentó de nuevo?
added = { $of ->
    [ring] La cuña del anillo
   *[arm] La subida y bajada del husillo en una vuelta
 } llega a { $found } { $unit } a lo ancho del barrido; el archivo de la máquina prevé { $bound }. Algo se golpeó al girarlo: haga otro barrido. O corrija el archivo.

## A named ring's wedge, a spindle's rise, and what was learned of them by a mark

note-learned = como la auditoría { $audit } lo dejó conocido al girar { $of ->
    [ring] el anillo
   *[arm] el brazo en el husillo
 }: quitado del resultado
differs = { $of ->
    [ring] { $what }: su cuña
   *[arm] La subida y bajada del husillo
 } difiere { $apart } { $unit } de lo que se sabía desde la auditoría { $audit }.
differs-other-way = { $of ->
    [ring] { $what }: su cuña
   *[arm] La subida y bajada del husillo
 } está al revés de lo que se sabía desde la auditoría { $audit }. ¿Apunta { $mark } al otro lado?
differs-why = { $of ->
    [ring] La cuña del anillo no es la conocida. ¿Por qué?
   *[arm] La subida del husillo no es la conocida. ¿Por qué?
 }
was-misread = Marca mal leída, o nadie lo sabe
was-changed = { $of ->
    [ring] Otro anillo, o dañado o rectificado
   *[arm] Husillo reparado, o golpeado
 }: aprender de nuevo
was-not-half = { $of ->
    [ring] Anillo no girado
   *[arm] Brazo no sujetado
 } a media vuelta exacta: otro barrido
not-half-round = { $turned ->
    [ring] el anillo no se había girado a media vuelta exacta
   *[arm] el brazo no se había sujetado a media vuelta exacta
 }
said-why-it-differs = se dijo por qué lo girado no es como se sabía
ring-marked = { $ring } (marca: { $mark })
which-ring = Anillo en la mesa
mark-points = Adónde apunta su marca al empezar el primer barrido
spindle-mark-points = Con el brazo al frente, { $mark } del husillo apunta a
ring-mark-now = { CAP($mark) } del anillo apunta a
no-spindle-mark = Cómo se sujeta el brazo lo dice una marca en el husillo: el archivo de la máquina no nombra ninguna (spindle_mark), o se leen dos comparadores en una barra.
no-such-ring = Se encontró el anillo { $found }; se admite: { $allowed }

## A verdict, and where its guard comes from

judged-too-fine = { $judged } El comparador no basta para esta tolerancia.
no-guard = sin margen de guarda
guard = { $share } % { $where ->
    [side] hacia un lado
    [between] entre ambos límites
   *[circle] dentro del círculo
 }
guard-jointly = { $share } % { $where ->
    [side] hacia un lado
    [between] entre ambos límites
   *[circle] dentro del círculo
 }, para que ambos alcancen { $both } %
guard-student = { $guard }; t de Student, { $dof ->
    [one] 1 grado
   *[other] { $dof } grados
 } de libertad

## The rule a verdict was reached by, and the risk it takes

risk-simple = { $word ->
    [in] Dentro del límite tal como se lee. En el límite sería tan probable fuera como dentro
   *[other] Fuera del límite tal como se lee. En el límite sería tan probable dentro como fuera
 }: un riesgo de hasta 50 %. Realmente dentro, en este caso: { $sure } %.
risk-over-share = No se puede decidir: puede desviarse un { $found } % del límite. Con esta regla se admite como máximo { $most } %.
risk-beyond = Fuera del límite por más de lo que puede desviarse. Realmente dentro: { $sure } %.
risk-guarded = { $word ->
    [in] Dentro del límite, contando la incertidumbre: de lo que se declara dentro, como máximo { $most } % está fuera.
    [out] Fuera del límite, contando la incertidumbre: de lo que se declara fuera, como máximo { $most } % está dentro.
   *[close] No se puede decidir: el límite cae dentro de la incertidumbre.
 } Realmente dentro: { $sure } %.
assumes = { $together ->
    [jointly] Los ejes se toman como independientes entre sí.
   *[vector] La mayor de las dos incertidumbres vale para ambos ejes.
 }

## What can be decided with this gauge, ring and radius, and what would help

decides-nothing = { $axis }: aquí nada se puede declarar dentro; la duda, ±{ $by }, ocupa todo el límite.
decides-within = { $axis }: dentro solo a menos de ±{ $within }; un movimiento pequeño acaba ahí { $often ->
    [0] casi nunca
    [10] casi siempre
   *[other] { $often } de 10 veces
 }.
decides-help = { $enough ->
    [yes] Basta
   *[no] Ayuda, no basta
 }: { $way ->
    [ring] { $moves ->
        [yes] demostrarlo también con el anillo a media vuelta
       *[no] girar el anillo media vuelta
     }
    [arm] { $moves ->
        [yes] demostrarlo también con el brazo a media vuelta
       *[no] sujetar el brazo a media vuelta
     }
    [eight] ocho posiciones en el archivo de esta máquina, próxima auditoría
    [radius] sweep_radius { $radius } en el archivo de esta máquina, próxima auditoría, si brazo y superficie alcanzan
   *[gauge] el comparador “{ $gauge }” en el archivo de esta máquina, próxima auditoría
 }{ $way ->
    [radius] {""}
   *[other] , ±{ $was } → ±{ $now }
 }: { $often ->
    [0] casi nunca dentro
    [10] casi siempre dentro
   *[other] dentro { $often } de 10 veces
 }.
turned-gains = { $turned ->
    [ring] Anillo a media vuelta
   *[arm] Brazo a media vuelta
 }: ±{ $was } → ±{ $now }, otro barrido
head-decides = Qué se puede decidir

## Tolerances by name

tolerance-roughing = desbaste y taladrado
tolerance-general = trabajo general
tolerance-facing = planeado ancho
tolerance-boring = mandrinado
tolerance-acceptance = recepción de la máquina
tolerance-from = "{ $key }", { $name }: { $limit } en { $over } ({ $source })
source-trade = práctica común, sin fuente
source-acceptance = ISO 1701-2 (de memoria, cifra no vista)

## What a lean does to the work

effect-amount = { $mm } { $unit }
effect-below = menos de { $least } { $unit }
effect-dish = Una franja de { $strip } { $unit } de ancho, planeada de { $feed ->
    [left-right] izquierda a derecha
   *[front-back] frente a fondo
 } con la fresa de { $cutter } { $unit }, sale hundida { $by }.
effect-step = Las pasadas de { $feed ->
    [left-right] izquierda a derecha
   *[front-back] frente a fondo
 }, separadas { $apart } { $unit }, se encuentran con escalones de { $by }.
effect-hole = Un agujero taladrado a { $deep } { $unit } de profundidad con la caña acaba desviado { $by }{ $toward ->
    [front] {" "}hacia el frente
    [back] {" "}hacia el fondo
    [left] {" "}hacia la izquierda
    [right] {" "}hacia la derecha
    [front-left] {" "}hacia el frente izquierdo
    [front-right] {" "}hacia el frente derecho
    [back-left] {" "}hacia el fondo izquierdo
    [back-right] {" "}hacia el fondo derecho
   *[nowhere] {""}
 }.
effect-bore = Un mandrinado de { $bore } { $unit }, hecho subiendo la mesa, sale ovalado en { $by }.
effect-exactly = { $effect } Exacto: { $exact }; con la fórmula de manual: { $textbook }.

## A gauge's check

gauge-checked = { $good ->
    [yes] Bien
    [close] No se puede decidir
   *[no] No está bien
 }: sus errores abarcan { $span } { $unit }; se admite { $allowed } { $unit }.
gauge-checked-repeats = { $told } Repite dentro de una desviación típica de { $sd } { $unit }.
gauge-checked-both-ways = { $told } Subida y bajada difieren hasta { $by } { $unit }.
gauge-checked-over = { $told } Comprobado en { $part } de { $travel } { $unit }.
gauge-checked-within = { $told } La comprobación misma puede desviarse { $by } { $unit } ({ $share } %). { $risk }
gauge-checked-short = { $told } En { $within } { $unit } su error cambia hasta { $by } { $unit }, leído desde un lado.
gauge-checked-undecided = { $told } Un juego con un certificado más fino, o más repeticiones, puede decidirlo; hasta entonces, use otro comparador.
gauge-checked-not-good = { $told } Retírelo del uso hasta que se haya revisado.

## Coming to a stop-at, and what the gauge cannot follow

turn-by-degrees = aproximadamente { $degrees ->
    [one] 1 grado
   *[other] { $degrees } grados
 }
turn-by-part = aproximadamente { $part ->
    [eighth] un octavo de vuelta
    [sixth] un sexto de vuelta
    [quarter] un cuarto de vuelta
    [third] un tercio de vuelta
    [half] media vuelta
    [two-thirds] dos tercios de vuelta
   *[three-quarters] tres cuartos de vuelta
 }
turns = aproximadamente { $whole ->
    [one] una vuelta
   *[other] { $whole } vueltas
 }
turns-and = aproximadamente { $whole ->
    [one] una vuelta
   *[other] { $whole } vueltas
 } y { $part ->
    [eighth] un octavo
    [sixth] un sexto
    [quarter] un cuarto
    [third] un tercio
    [half] media
    [two-thirds] dos tercios
   *[three-quarters] tres cuartos
 }
approach-by-hand = Empújelo o golpéelo con suavidad, poco a poco, y suelte antes de leer.
approach-shims = Arrime los tornillos sobre las calzas antes de cada lectura; se aprietan después.
approach-none = Solo se informa: nada de este eje se puede ajustar.
approach-raising = Llegue despacio, subiendo { PLACE($rising) } del cabezal.
approach-one-side = Llegue despacio, siempre por el mismo lado.
move-off-scale = Este movimiento es mayor de lo que el comparador puede seguir. Acerque antes el cabezal con escala o escuadra.
move-past-travel = Al comparador se le acaba el recorrido { $by } antes de la parada. Póngalo con menos precarga y lea otra vez este punto.
move-lifts-contact = Este movimiento levanta el palpador de la superficie. Hunda más el comparador y lea otra vez este punto.
move-little-preload = Este movimiento deja el palpador solo { $left } hacia dentro. Hunda más el comparador y lea otra vez este punto.

## Pulling up the bolts

pulled-up = { $share ->
    [quarter] a un cuarto
    [third] a un tercio
    [half] a la mitad
    [two-thirds] a dos tercios
    [three-quarters] a tres cuartos
   *[all] hasta el final
 }
pulled-up-by = a { $part }/{ $of }
pulled-up-to = a { $torque }
torque = { $torque } { $unit ->
    [in] lbf·ft
   *[mm] N·m
 }
torque-by = { $torque }, llave n.º { $wrench }
bolt-over = { CAP($bolt) } movió el cabezal { $moved }; se admite { $allowed }. { $bolts ->
    [1] Aflójelo y apriételo luego con más suavidad.
    [2] Aflójelo, apriete el otro y luego vuelva a este.
    [3] Aflójelo, apriete los otros dos y luego vuelva a este.
   *[other] Aflójelo, apriete el de enfrente y luego vuelva a este.
 }

## Why there is no reading yet

no-reading = Sin lectura: { $why }. { $by ->
    [key] Tómela
   *[touch] Manos fuera y luego tómela
 } otra vez.
no-samples = no hay muestras desde que se tomó la lectura
not-long-enough = aún no basta el tiempo: { $samples ->
    [one] 1 muestra
   *[other] { $samples } muestras
 } hasta ahora
still-moving = aún se mueve: { $found } { $unit } en los últimos { $seconds } s; se admite { $allowed }
key-not-pressed = no se pulsó la tecla del comparador
key-down = la tecla del comparador sigue pulsada
key-presses = la tecla del comparador se pulsó { $pressed } de { $of } veces
presses-apart = las últimas { $presses } pulsaciones difieren { $found } { $unit }; se admite { $allowed }

## Other checks than the sweep: what they are, where they read, what came out

check-runout = Salto del husillo
check-travel = Mesa a lo largo de su recorrido
station-angle = Husillo a { $to }°, { $at } { $unit } bajo la nariz{ $seat ->
    [1] {""}
   *[other] , barra girada
 }
turn-spindle = { $seat ->
    [1] Husillo a { $to }°, comparador { $at } { $unit } bajo la nariz.
   *[other] Barra al revés: husillo a { $to }°, { $at } { $unit } bajo nariz.
 }
runout-total = Salto { $at } { $unit } bajo la nariz
runout-spindle = El salto propio del husillo { $at } { $unit } bajo la nariz
runout-bar = La excentricidad propia de la barra { $at } { $unit } bajo la nariz
runout-eccentricity = Excentricidad { $at } { $unit } bajo la nariz
runout-tilt = Inclinación respecto del eje de giro
station-travel = { $axis ->
    [x] X
   *[y] Y
 } en { $to } { $unit }
move-table = Mueva la mesa a { $to } { $unit } en { $axis ->
    [x] X
   *[y] Y
 }.
take-from-one-side = Llegue siempre por el mismo lado. Tome la lectura.
travel-slope = Pendiente en { $axis ->
    [x] X
   *[y] Y
 }
travel-form = Rectitud en { $axis ->
    [x] X
   *[y] Y
 }
# A vise's jaw, and how it is tapped in
check-vise = Boca de la mordaza a lo largo del recorrido
station-vise = a { $to } { $unit } del extremo { $along ->
    [x] izquierdo
   *[y] frontal
 }
move-along-jaw = Palpador a { $to } { $unit } del extremo { $along ->
    [x] izquierdo
   *[y] frontal
 } de la boca.
jaw-end = extremo { $end ->
    [left] izquierdo
    [right] derecho
    [front] frontal
   *[back] posterior
 }
vise-nearer = Boca: { $end } más cerca del comparador
term-jaw = La boca o el recorrido no es recto
tap-end = Golpee el { $end } { $by }, alejándolo del comparador.
tap-how = Apriete apenas el tornillo del otro extremo, deje este solo arrimado y golpee hasta que lea { $stop }. Luego apriete ambos.
tap-until = Golpee el { $end } hasta que lea { $stop }.
tapped-tight = Golpeada, ambos tornillos apretados: leer otra vez
was-tapped = corregida a golpes desde entonces
halt-tap = No golpee.
caution-tap = Mazo blando sobre el cuerpo de la mordaza, lejos de palpador y dedos.
end-was-tapped = la mordaza se corrigió a golpes
term-turned = El husillo se paró fuera de su ángulo
term-bar = El salto propio de la barra
term-edge = Aquello sobre lo que se lee no es recto
term-laid = Cómo está colocado
note-follows = agrupado sobre las visitas; tanto como el resultado sigue a cada lectura
note-follows-assumed = supuesto hasta que más visitas lo digan; tanto como el resultado sigue a cada lectura
note-digit = dígito/√12 de una lectura cuando está quieto, menos cuando se mueve
note-hump = la mitad del error de retorno/√3 de una lectura, y de un solo signo en toda la vuelta
note-same-zero = igual en toda la vuelta
note-turned-off = tanto del salto ahí como se desvía el ángulo, en radianes; en cualquier punto dentro de su cota
note-no-bar = { $read ->
    [bore] no se lee ninguna barra
   *[bar] la barra se puso a media vuelta por segunda vez: cambia de signo
 }
note-edge = igual en cada visita a una posición; en cualquier punto dentro de su cota
note-laid = se ve igual que la pendiente; en cualquier punto dentro de su cota
note-line-out = la recta por las lecturas lo elimina
do-not-fit = Las lecturas no cuadran entre sí: el resto de una es { $found } { $unit }; se admite { $allowed }. Una viruta bajo el palpador, una posición distinta de la dicha, o el comparador puesto a cero por el camino: limpie y lea otra vez.
highest-at = máximo a { $angle }°
highest-within = máximo a { $angle }° ± { $by }°
toward-untold = no se puede saber hacia dónde
figure-over = { $figure } en { $over }
give-or-take = incertidumbre { $by } { $unit }
check-came-to = { $check }: { $word ->
    [in] dentro
    [close] no se puede decidir
   *[out] fuera
}
check-signed = { $came }. La auditoría { $audit } está firmada.
check-signed-by = Hecha por { $by }. Listo para la siguiente.
reason-of = { $check }. { $reason }
open-check = Comprobar: { $check }
gauge-out = Comparador y montaje fuera. { $drawbar ->
    [hand] Llave fuera del tirante.
   *[power] Husillo vaciado con su tirante.
 }
cleared-gauge = Todo fuera, { $drawbar ->
    [hand] llave fuera del tirante
   *[power] tirante vacío
}
gauge-in-the-way = comparador o barra de prueba en medio
gauge-is-out = comparador y barra de prueba fuera, { $drawbar ->
    [hand] llave fuera del tirante
   *[power] tirante vacío
}
take-gauge-out = { $drawbar ->
    [hand] Antes de dar corriente: comparador y barra de prueba fuera, llave fuera del tirante.
   *[power] Antes de dar corriente: comparador fuera. Luego la barra de prueba fuera, con su tirante.
}
read-again = Leer todo otra vez
read-again-why = Por qué se lee otra vez
no-such-check = check: se encontró { $found }; se admite: { $allowed }
no-round = Aún no se leyó cada estación: no hay nada que firmar.
only-squaring = { $keys }: solo donde se escuadra un cabezal; lo abierto es otra comprobación: { $check }.
only-at-stations = station: se encontró { $found }; aquí se escuadra el cabezal y se lee una posición de su círculo.
other-station = Toca otra lectura: { $next }.
# A morning's look at two spots: whether the head stands as its last signed sweep left it
check-morning = Comprobación de la mañana
morning-change = { $pair ->
    [front-right] Frente contra derecha
    [front-left] Frente contra izquierda
    [right-left] Derecha contra izquierda
   *[front-back] Frente contra fondo
}: cambió
look-came-to = { $check }: { $word ->
    [in] nada se movió
   *[out] mire mejor. Haga la comprobación completa
}
would-have-seen = Habría visto { $size } en { $over } { $unit }, 19 de cada 20 veces, desde el { DAY($day) }.
blind-to-axis = No ve: { $axis }.
blind-to-corner = No ve una inclinación de { $corner ->
    [front-right] frente derecha a fondo izquierda
   *[front-left] frente izquierda a fondo derecha
}.
few-alarms = Sin que nada se mueva, 1 mañana de cada 20 dice «mire mejor». No se juzga tolerancia alguna.
neutral-first = Antes del bloqueo: punto muerto, dos dedos giran el husillo.
touched-since = ¿Tornillos, carnero, torreta o un golpe desde el { DAY($day) }? Abandone esto y haga la comprobación completa.
term-then = El barrido de la auditoría { $audit }
note-then = como se firmó el { DAY($day) }, sin lo que el mismo comparador se desvía también hoy
term-form = La forma de la mesa
note-same-form = los mismos puntos de la mesa ambas veces
note-put-anew = colocado de nuevo desde entonces: tanto como en el balance propio de un barrido
note-clamped-anew = el brazo puede estar en otro punto de la vuelta: tanto como en el balance propio de un barrido
term-between = Deriva entre los dos puntos
note-between = nada se lee dos veces: tanto como un paso de aquel barrido, y al menos un dígito; entre √3
read-otherwise = El último barrido firmado se leyó { $what ->
    [gauge] con otro comparador
    [radius] en otro círculo
    [seat] sobre otra superficie
   *[ram] con el carnero en otro ángulo
}: no hay con qué comparar. Haga la comprobación completa.
caution-locked-out = Sin corriente y con candado; nada gira ni se mueve sino a mano.
caution-turn-by-hand = Gire el husillo por su nariz, nunca por el comparador ni el tirante; dedos lejos de la barra y del palpador.
caution-table-clear = Compruebe que todo el camino de la mesa está libre y que no hay manos en guías ni husillos de avance.

## Good enough for a job

enough-title = ¿Basta para este trabajo?
enough-is = la cota de un plano frente al último barrido
enough-how = Escriba lo que pide el plano, cada valor con su unidad. No se toca ningún tornillo, y nada se registra si no guarda la respuesta.
enough-what = Qué se mecaniza
enough-kind = { $of ->
    [bore] Mandrinado o agujero
    [wall] Pared
   *[face] Cara
 }
callout-depth = Profundidad
callout-height = Altura
callout-width = Anchura
callout-zone = { $of ->
    [bore] Perpendicularidad, a lo ancho de su zona
    [wall] Perpendicularidad
   *[face] Planitud o paralelismo
 }
callout-faces = Mira hacia
callout-any = cualquier lado
callout-right-left = derecha o izquierda
callout-front-back = de frente a fondo
callout-left-right = de izquierda a derecha
callout-cutter = Fresa, diámetro
callout-step = De una pasada a la siguiente, si son varias
callout-to = Ha de quedar
callout-flat = plana
callout-parallel = paralela a la mesa
callout-feed = El avance va
enough-ask = ¿Basta?
enough-keep = Guardar esta respuesta
enough-kept = Guardada en el registro.
callout-of = { $of ->
    [bore] su mandrinado
    [wall] su pared
   *[face] su cara
 }
enough = { $word ->
    [in] Basta: { $does } en { $over }, ± { $by }. Se admite { $zone } { $unit }.
    [out] No basta: { $does } en { $over }, ± { $by }. Se admite { $zone } { $unit }.
   *[close] No se puede decidir: { $does } en { $over }, ± { $by }. Se admite { $zone } { $unit }.
 }
enough-gauge = Ese barrido no puede distinguir tan poco, lea lo que lea.
enough-signed = Por el barrido firmado el { DAY($day) } (auditoría { $audit }), { $days ->
    [0] de hoy
    [one] de hace 1 día
   *[other] de hace { $days } días
 }.
enough-fresh = Por el último barrido de la auditoría abierta { $audit }, aún sin firmar.
enough-since = { $open ->
    [yes] No se aflojó nada desde entonces.
   *[no] Nada de lo registrado movió el cabezal desde entonces. Un golpe, un carnero girado o un tornillo tocado sin auditoría solo lo sabe usted.
 }
enough-alone = Solo la parte del cabezal. { $of ->
    [bore] Se suman cómo corren caña o ménsula, la fresa y la mordaza.
    [wall] Se suman cómo corre la mesa, la flexión de la fresa y la mordaza.
   *[face] Se suman cómo corre la mesa, el salto del husillo y la mordaza.
 }
callout-not-so = Eso aún no es una cota:
enough-unsafe = La máquina no es segura para funcionar: arregle antes lo que quedó flojo.
enough-moved = El cabezal puede haberse movido desde su último barrido. Haga antes un barrido.
enough-doubted = La comprobación de la mañana dijo «mire mejor», y desde entonces no se hizo un barrido. Hágalo antes.
enough-crash = Hubo un choque desde el último barrido. Haga antes un barrido del cabezal.
enough-no-sweep = El cabezal aún no tiene un barrido firmado. Haga antes un barrido.
enough-other-sweep = Desde entonces se hizo otro barrido (auditoría { $audit }). Pregunte otra vez.
answer-was-kept = se guardó una respuesta para un trabajo

## On several screens

and-then = { $first } { $next }
name = { $name }
length = { $length } { $unit }
percent = { $of } %
word = { $word ->
    [in] dentro
    [close] no se puede decidir
   *[out] fuera
}
reason = { $reason ->
    [after-angled-work] Tras trabajo en ángulo
    [crash] Tras un choque
    [before-job] Antes de un trabajo importante
    [bad-work] La pieza salió mal (escalón, ovalado)
    [moved] Trasladada o nivelada
    [maintenance] Tras mantenimiento
    [check-only] Solo comprobar
    [practice] Práctica
   *[scheduled] Programada
}
checked-and-squared = Solo comprobar, luego escuadrado
age = { $age ->
    [as-found] como se encontró
    [before-move] antes del movimiento
    [before-tightening] antes de apretar
    [pair-check] por dos puntos
    [estimate] estimación
    [old-zero] cero anterior
    [as-left] como se dejó
   *[was] era
}
place-name = { $place ->
    [front-right] Frente derecho
    [right] Derecha
    [back-right] Fondo derecho
    [back] Fondo
    [back-left] Fondo izquierdo
    [left] Izquierda
    [front-left] Frente izquierdo
   *[front] Frente
}
at-place = { $place ->
    [front-right] al frente derecho
    [right] a la derecha
    [back-right] al fondo derecho
    [back] al fondo
    [back-left] al fondo izquierdo
    [left] a la izquierda
    [front-left] al frente izquierdo
   *[front] al frente
}
to-place = { $place ->
    [front-right] hacia el frente derecho
    [right] hacia la derecha
    [back-right] hacia el fondo derecho
    [back] hacia el fondo
    [back-left] hacia el fondo izquierdo
    [left] hacia la izquierda
    [front-left] hacia el frente izquierdo
   *[front] hacia el frente
}
round-by = Media vuelta, con el comparador { $at } a mitad de camino: así su cable se desenrolla.
still-low = Aún { $by } bajo { $at }
still-too-low = Aún { $by } demasiado bajo { $at }

## While there is no number

halt-wait = ESPERE: no hay lectura.
halt-stop = PARE: no hay lectura.
halt-turning = DEJE de girar: no hay lectura.
halt-tightening = DEJE de apretar: no hay lectura.
halt-turn-nothing = No gire nada.
halt-leave-bolts = Deje los tornillos como están.
halt-hands-off = Manos fuera del mando.
halt-goes-on = Sigue por sí solo cuando haya un número.

## The wall

ready = Listo para una auditoría.
# Where a machine's file offers other checks than the head's, each choice stands over its buttons.
choose-what = Elija qué comprobar.
choose-why = Elija por qué se comprueba el cabezal.
choose-other = O elija otra comprobación.
was-abandoned = La auditoría { $audit } se abandonó.
audit-signed = La auditoría { $audit } está firmada: { $word }.
audit-signed-by = { $moves ->
    [one] { $moves } movimiento
   *[other] { $moves } movimientos
}. Hecha por { $by }. Listo para la siguiente.
stage = { $stage ->
    [prepare] Preparar
    [as-found] Como está
    [square] Escuadrar
    [final] Demostrar
    [stations] Leer
    [clear] Recoger
   *[sign] Firmar
}
headline-knocked = ¿Un golpe?
headline-read-again = Lea otra vez ambos puntos.
headline-another-adjuster = ¿Mando equivocado?
headline-backwards = Fue al revés.
headline-astray = Por ahora, sin parada.
headline-elsewhere = No está donde se dejó.
headline-bolt = Ese tornillo movió el cabezal.
headline-not-there = No está en la parada.
headline-stuck = ¿Se mueve el comparador?
headline-crept = Al soltar, volvió.
headline-not-back = No volvió.
headline-lifted = ¿Puesto a cero o levantado?
headline-differs = No es como se conocía.
headline-travel = Se acaba el recorrido.
headline-lifts = El palpador se levantará.
headline-preload = Muy poco metido.
headline-look = Mire la consola.
parked-turn = Comparador estacionado { $at }: { LOWER($turn) } hasta que lea { $stop }.

## Both axes

axis-name = { $axis ->
    [nod] Cabeceo
   *[side] Ladeo
}
# Which end of the table the head is low at, and which way it is nodded.
low-end = { $side ->
    [right] bajo a la derecha
    [left] bajo a la izquierda
    [back] cabecea arriba
   *[front] cabecea abajo
}
too-low-end = { $side ->
    [right] demasiado bajo a la derecha
    [left] demasiado bajo a la izquierda
    [back] cabecea demasiado arriba
   *[front] cabecea demasiado abajo
}
plus-minus = ±{ $limit }
low-by = { $end } { $limit }
never-low = { $end }: nada
level = a nivel
side-low = { $side ->
    [right] bajo a la derecha
    [left] bajo a la izquierda
    [back] cabecea arriba
   *[front] cabecea abajo
}
as-wanted = { $stands }, como se quiere
low-but-too-high = { $end }, pero no lo bastante
level-but-too-high = { $side ->
    [right] a nivel: demasiado alto a la derecha
    [left] a nivel: demasiado alto a la izquierda
    [back] a nivel: cabecea demasiado abajo
   *[front] a nivel: cabecea demasiado arriba
}
verdict-in = Dentro de tolerancia en ambos ejes.
verdict-out = Fuera de tolerancia.
verdict-close = La lectura no distingue dentro de fuera.
gauge-not-good-enough = El comparador no basta para esta tolerancia.
whole-out = Cada eje está dentro; la inclinación en conjunto, fuera.
whole-close = Cada eje está dentro; la inclinación en conjunto no se puede decidir.

## Cautions: common practice, no source

manual-first = Mandan el manual de la máquina y las normas de su taller.
held-by-bolts = Solo los tornillos sujetan este cabezal. { $by ->
    [sling] Eslínguelo o apóyelo con gato
   *[block] Cálcelo o eslínguelo
 } antes.
turn-by-the-nose = Gire el husillo por la nariz, nunca por el comparador ni el tirante.
rack-runs-back = { CAP($adjuster) } puede correr atrás al aflojar sus tornillos: no lo suelte.
crack-only = Afloje apenas los tornillos; nunca quite una tuerca. El cabezal pesa: que esté apoyado.
hands-clear = Manos fuera de la junta, nadie bajo el cabezal.
tight-before-reading = Vuelva a apretar los tornillos antes de leer nada.
head-still-blocked = Cabezal aún calzado o eslingado, nadie debajo.
tap-softly = Golpee con latón o mazo blando, lejos del comparador.
head-still-slung = Cabezal aún eslingado o sobre gato, nadie debajo.
push-with-a-strip = Meta la calza con una tira, nunca con los dedos.
lock-out = Aísle la máquina, { $air ->
    [vented] purgue su aire,{" "}
   *[none] {""}
 }{ $people ->
    [1] póngale candado
   *[other] ponga cada uno su candado
 }, intente arrancarla y luego vuelva a ponerla en apagado.
keep-the-lock = Nunca anule un bloqueo para soltar el freno.
brake-holds = ¿El freno retiene sin corriente? Use su liberación manual según el manual.
brake-by-hand = Suelte el freno de mano para girar el husillo por la nariz.
own-supply = Esta pantalla tiene alimentación propia; sigue encendida.
swing-clear = Compruebe que brazo y cable giran libres toda la vuelta.
pedal-clear = Ponga el pedal donde nadie tropiece.
do-not-force = No fuerce el mando con los tornillos apretados.
watch-the-travel = Vigile el recorrido del comparador.
no-extension = Sin alargador en la llave.
before-power = Ambas cosas antes de dar corriente.
power-for-drawbar = Corriente solo para el tirante, según el manual: en punto muerto, manos lejos de él.
big-nod = Un cabeceo grande, aquí unos { $about }: { $z ->
    [knee] baje la ménsula
    [quill] suba la caña
   *[powered] suba el comparador en su soporte
 } y recoloque el palpador antes de esto.
falling-head = Ningún comparador bajo un cabezal que cae.
are-loose = flojos: { $bolts }
are-tight = apretados: { $bolts }
arm-is-in = Brazo en el husillo
arm-goes-in = El brazo va en el husillo
gauge-set-up = Comparador montado en la máquina
arm-in-spindle = brazo en el husillo
arm-is-out = brazo fuera, { $drawbar ->
    [hand] llave fuera del tirante
   *[power] tirante vacío
}
not-safe = NO ES SEGURO ARRANCAR: { $left }.
put-right = Antes de dar corriente: apriete { $bolts }, { $drawbar ->
    [hand] brazo fuera, llave fuera del tirante.
   *[power] comparador fuera. Luego el brazo fuera, con su tirante.
}
take-arm-out = { $drawbar ->
    [hand] Antes de dar corriente: brazo fuera, llave fuera del tirante.
   *[power] Antes de dar corriente: comparador fuera. Luego el brazo fuera, con su tirante.
}
all-put-right = { CAP($done) }

## Given up, or put aside for a hot job: how the machine is left

how-left = Cómo queda la máquina
left-as-is = Tal como está. { $tag }
leave-as-is = Se deja como está
put-aside = Apartar por un trabajo urgente
put-aside-sure = La auditoría queda abierta. Al continuar, lo leído hasta ahora ya no vale: primero la tarjeta, la prueba de toque y un barrido completo.
put-aside-without-why = Diga por qué se aparta la auditoría: la etiqueta lo muestra.
rests-already = Esta auditoría ya está apartada.
rest-first = Asegúrela antes de que vuelva la corriente.
rest-how = Luego pulse. La auditoría espera; la máquina puede funcionar.
rests-safe = Todo apretado, brazo fuera, { $drawbar ->
    [hand] llave fuera del tirante
   *[power] tirante vacío
}. Su comparador puede usarse en otro sitio.
put-aside-for = Apartada: { $why }
half-unjudged = A MEDIO ESCUADRAR: aún sin juzgar.
half-inside = A MEDIO ESCUADRAR: último dictamen DENTRO{ $since ->
    [loose] , tornillos aflojados después
   *[tight] {""}
 }.
half-squared = A MEDIO ESCUADRAR: último dictamen { $word ->
    [close] DUDOSO
   *[out] FUERA
 } ({ $axes }){ $since ->
    [loose] , tornillos aflojados después
   *[tight] {""}
 }.
half-axis = { $axis ->
    [nod] cabeceo
   *[side] ladeo
 } { $off }
half-read = A MEDIAS: { $check }, aún sin juzgar.
half-checked = A MEDIAS: { $came }.
take-up = Retomarla
take-up-sure = Primero la tarjeta, la prueba de toque y un barrido completo.

## While there is still power, and how the contact comes down, by the kind of machine:
## common practice, no source

run-it-warm = { $reason ->
    [crash] Tras un choque: déjelo frío, en punto muerto.
   *[other] Mientras aún hay corriente: caliéntelo en marcha.
}
run-it-warm-how = Husillo vacío. { $reason ->
    [crash] Parado
   *[other] Hágalo girar unos minutos, o déjelo frío. Luego párelo
}, en punto muerto: { $brake ->
    [none] dos dedos lo giran
   *[other] con el freno suelto, dos dedos lo giran
 }.
unlock-first = ¿Con candado para eso? Todo apretado y nadie en ella: entonces cada uno quita el suyo.
clear-of-power = Resguardos puestos, manos lejos de todo lo que se mueve con motor.
looked-at-first = Tras un choque: no arranque nada antes de que lo revise alguien cualificado.
minutes = Minutos
is-warm = Calentado, en punto muerto
is-warm-after = Calentado unos minutos, en punto muerto
left-cold = Dejado frío, en punto muerto
clamp-arm = { $of ->
    [check] Sujete lo que lleva
   *[head] Sujete brazo y comparador
 } con el tirante motorizado.
clamp-arm-how = Manos lejos de nariz y tirante mientras sujeta. { $of ->
    [check] Se queda
   *[head] El brazo se queda
 } puesto desde ahora.
start-nothing = Nadie arranca el husillo con el brazo puesto.
drawbar-clear = El tirante motorizado, según el manual: aprieta fuerte, o suelta lo que sujeta.
arm-clamped = { $of ->
    [check] Sujeto, manos lejos
   *[head] Brazo sujeto, manos lejos
 }
set-height = Ponga la altura y luego bloquéela.
set-height-how = Con motor y despacio, hasta que el palpador cuelgue unos { $clear } por encima de donde ha de leer. Luego bloquee Z.
head-may-sink = Un cabezal motorizado puede bajar sin corriente: bloquéelo o cálcelo según el manual.
height-is-set = Altura puesta, Z bloqueada
no-such-minutes = minutes: se encontró { $found }; se admite: de 1 a { $most }, donde se calentó en marcha
was-warmed = el husillo se calentó en marcha, o se dejó frío
arm-was-fitted = el tirante motorizado sujetó
height-was-set = se puso la altura
contact-down = { $z ->
    [knee] Caña arriba y bloqueada. Suba la ménsula hasta hundir unos { $preload }. Bloquee la ménsula y luego lea.
    [quill] Baje la caña hasta hundir unos { $preload }. Bloquee la caña y luego lea.
   *[powered] Z sigue bloqueada. Baje el comparador en su soporte hasta hundir unos { $preload }. Sujételo y luego lea.
 }
contact-as-it-was = { $z ->
    [knee] Suba la ménsula adonde estaba y bloquéela.
    [quill] Caña abajo adonde estaba, y bloqueada.
   *[powered] Z sigue bloqueada: baje el comparador en su soporte adonde estaba.
 }

## Arm and gauge out, a shim in, and back: common practice, no source

arm-and-gauge-out = { $drawbar ->
    [hand] Brazo y comparador fuera.
   *[power] Comparador fuera del brazo, lejos del cabezal.
 }
arm-and-gauge-back = { $drawbar ->
    [hand] Brazo y comparador otra vez puestos.
   *[power] Comparador otra vez en el brazo.
 }
support-head = { $by ->
    [sling] Luego eslingue el cabezal o póngale un gato: solo lo sujetan sus tornillos.
    [block] Luego calce o eslingue el cabezal: solo lo sujetan sus tornillos.
   *[adjuster] Luego haga apoyar el cabezal: pesa.
 }
still-locked-out = Corriente aún con candado. Ahora se toca el palpador.
nobody-beneath = Desde ahora, nadie bajo el cabezal.
arm-is-away = Fuera, cabezal apoyado
arm-is-back = Puesto, dedos lejos
open-again = Afloje otra vez { $bolts }.
open-joint = Luego abra la junta solo lo que pide la calza. Manos fuera de ella.
joint-is-open = Abierta, cabezal sujeto
push-then-snug = Métala con una tira. Luego arrime los tornillos sobre ella.
arm-went-out = brazo y comparador se apartaron
arm-was-put-back = brazo y comparador se volvieron a poner
shim-was-put-in = se puso una calza

## The instruction of each step

down-again = Baje { $set ->
    [anew] el palpador.
   *[as-it-was] otra vez el palpador, puesto como estaba.
}
down-again-at = Baje { $set ->
    [anew] el palpador { $at }.
   *[as-it-was] otra vez el palpador { $at }, puesto como estaba.
}
cracked-too = { CAP($bolts) }: también aflojados.
behind-the-head = Detrás del cabezal, de cara al dorso de la columna, la derecha es su izquierda.
leave-alone = No toque { $bolts }.
keep-tight = De momento, deje apretados { $bolts }.
screen-was-off = La pantalla estuvo apagada: ¿sigue puesto el candado?
screen-was-off-ask = Intente arrancar. ¿Siguen sin tocar el comparador y { $of ->
    [check] todo aquello sobre o contra lo que está puesto
   *[head] el cabezal
 }? Lea otra vez el número del comparador.
keep-supported = Mantenga apoyado el cabezal: { $bolts } pueden estar flojos.
# After angled work
angle-asked = ¿Sigue el cabezal en ángulo?
angle-asked-why = Nada puede colgar del husillo mientras se gira de vuelta.
still-angled = Sigue en ángulo
angle-is-back = Ya está de vuelta en cero
set-back-first = Vuelva el cabezal a cero con su escala.
set-back-how = Apóyelo, afloje apenas los tornillos, lleve cada escala a cero, apriete apenas los tornillos por igual y luego apriételos del todo.
arm-stays-out = Aún sin brazo ni comparador en el husillo.
is-set-back = En el cero de la escala, y apretado
was-set-back = Vuelto a cero con su escala tras trabajo en ángulo; no como se encontró.
# After a crash
try-the-bolts = Llave a cada tornillo de cabezal, carnero, torreta: ¿cuál cedió?
bolts-to-try = Pruebe { $bolts }. Apriete lo que ceda.
has-moved = Cedió: { $bolt }
ram-bolt-too = Si el carnero o la torreta se corrió, la próxima tarjeta lo pregunta.
bolts-tried = { $moved ->
    [0] Todos probados, ninguno cedió
    [one] Todos probados, { $moved } cedió y está otra vez apretado
   *[other] Todos probados, { $moved } cedieron y están otra vez apretados
}
run-out-first = Primero el salto del husillo
crash-bolts-held = Un tornillo cada vez, sin aflojar ninguno: el cabezal pesa.
not-to-be-tried = bolt: se encontró { $found }; se admite: { $allowed }
# The machine was moved
level-first = Ponga antes la máquina a nivel.
level-first-how = Cada pie carga, la mesa a nivel en ambos sentidos. Deje que asiente y luego lea otra vez el nivel.
is-level = A nivel, y asentada
jack-by-manual = Elevarla y ponerle gatos según el manual del fabricante, por personas que sepan; nadie debajo.
make-safe = Asegure la máquina y luego monte el comparador.
make-safe-bar = Asegure la máquina; luego barra y comparadores.
read-number = Lea el número del comparador, pulse, y elíjalo o escríbalo.
read-numbers = Lea los números de ambos comparadores, pulse, y elíjalos o escríbalos.
lift-contact = Levante el palpador: que cuelgue libre.
lift-contact-why = Luego tome la lectura: muestra si el comparador se puso a cero. La auditoría sigue donde estaba.
hang-free = Deje colgar el palpador libre en el aire.
hang-free-take = Manos fuera y luego tome la lectura.
push-contact = Empuje el palpador y suéltelo.
push-contact-why = Esto muestra que el comparador vive, en qué sentido cuenta y que vuelve.
hold-contact-in = Mantenga hundido el palpador hasta ver su número.
hold-contact-in-why = Un comparador con tecla: pulse entretanto la tecla. Luego suelte.
let-contact-go = Suelte el palpador.
let-contact-go-why = Quite el dedo y luego tome la lectura: tiene que volver.
take = Tome la lectura.
take-at = Tome la lectura { $at }.
turn-to = Gire { $to } y tome la lectura.
first-sweep = Todo aún apretado: un barrido completo.
proving-sweep = Todo apretado: este barrido completo muestra cómo queda el cabezal.
down-at = Baje el palpador { $at }.
flick-first = Dé tres toquecitos al brazo, dejándolo parar cada vez.
all-still-tight = Todo aún apretado.
turn-on = Siga girando, { $to }.
turn-back = Gire de regreso por donde vino, { $to }.
take-again-there = Tome otra vez la lectura ahí: muestra si algo derivó.
turn-until-at = Gire el husillo: comparador { $at }.
read-again-at = Lea otra vez el comparador { $at }.
touch-nothing = Antes no toque nada más.
bolts-as-they-are = Tornillos como están.
bolts-still-tight = Tornillos aún apretados.
park-at = Estacione el comparador { $at }.
park-next = Sigue: { $axis }. { $bolts } Tome la lectura.
park-take = { $park } { $bolts } Tómela.
out-go-on = { $out }: { $onward }.
try-a-turn = pruebe un giro
a-shim = una calza
another-shim = otra calza
push-further = empuje más
turn-further = gire más
hands-off-until = Manos fuera hasta que se responda.
turn-nothing-until = No gire nada hasta que se responda.
crack = Afloje apenas { $bolts }.
nip-back = Aflojar y apretar apenas hasta que { $kind ->
    [hand] un golpecito
   *[screw] el mando
 } lo mueva con dureza.
crack-enough = { $nip } Puede bajar un poco; la parada se mantiene. Luego pulse.
crack-by-hand = { $nip } Puede bajar un poco. Luego pulse.
turn-adjuster = Gire { $adjuster }
push-adjuster = Empuje { $adjuster }
a-little = { $turn } un poco en cualquier sentido.
a-little-back = { $turn } un poco de regreso, por donde vino.
a-little-how = Unos grados; no hay lectura de parada. Muestra cómo responde el cabezal. Luego suelte y pulse.
turn-until = { $turn } hasta que el comparador lea { $stop }.
turn-how = { $goes } { $come } Luego suelte y pulse.
goes = El número va hacia { $way ->
    [up] arriba
   *[down] abajo
} desde aproximadamente { $now }.
there-already = Ya lee eso.
that-is = Eso es { $turns }.
go-past = Pase { $by } de largo y vuelva. { $come }
shim = una calza de { $thickness } detrás de { $place }
shim-stack = calzas de { $thick } + { $thin } detrás de { $place }
shim-sum = { $sum } ({ $thick } + { $thin })
shim-leaves = La más parecida que hay deja { $leaves } en { $over }: { $word ->
    [in] dentro
    [out] fuera
   *[close] no se puede decidir
}.
no-shim = Ninguna calza de aquí pone dentro { $axis }: en el mejor caso quedan { $leaves }.
put-shim = Ponga { $shim }.
check-other = Comprobación de dos puntos: el otro movimiento puede haber cambiado también { $axis }.
check-before-tightening = Comprobación de dos puntos antes de apretar.
check-left-out = Sin comprobación de dos puntos de { $axis }: { $likely } de 100 de estar dentro, y el último barrido lo muestra.
return-left-out = No se relee: ni { $walked } de deriva cambiarían palabra de ello.
check-tight = Comprobación de dos puntos con { $bolts } apretados.
pull-up = Apriete { $bolt }, { $part }.
pull-up-limit = Luego pulse. Un tornillo puede mover el número { $limit }.
tighten = Apriete { $bolts }.
tighten-both = Apriete { $side } y { $nod }.
both-bolts = { $side } y { $nod }
pull-up-with = Llave n.º { $wrench }. Luego pulse. Un tornillo puede mover el número { $limit }.
tighten-how = Por tercios, { $bolts ->
    [0] por turno, vigilando el número.
    [1] vigilando el número.
    [2] uno y luego el otro, vigilando el número.
    [3] uno tras otro, vigilando el número.
   *[other] en cruz, vigilando el número.
 }
tighten-to = A { $torque }, por tercios, vigilando el número.
arm-out = { $drawbar ->
    [hand] Brazo fuera. Llave fuera del tirante.
   *[power] Comparador fuera. Luego el brazo fuera, con su tirante.
 }
is-inside = A escuadra, en tolerancia.
leave-inside = Déjelo: a escuadra, en tolerancia.
leave-close = Déjelo: tan bien como distingue este comparador.
# What is put back, and what the verdict says nothing of: common practice, no source.
put-back = Limpie las chavetas, vuelva a poner la mordaza y alinee su boca con el comparador.
set-back = Engranajes y velocidad como estaban; bloqueos de ménsula, caña y mesa como pida el próximo trabajo.
verdict-of-table = El dictamen es del husillo frente a lo barrido en la mesa. Un mandrinado con avance de ménsula o caña sigue a estas, no a esto.
arm-had-been-out = el brazo se había sacado
was-left-alone = { $axis }: hoy no se toca: { $why }
found-out = Fuera: { $axes }.
leave-out = No se gira nada más: se informa tal cual.
report-only = { $axis }: solo informe.
sign-audit = Firme la auditoría.
recorded-already = Cada lectura está ya registrada.
bring-closer = Acerque el cabezal con escala o escuadra.
bring-closer-how = Está más lejos de lo que el comparador puede leer. Afloje apenas los tornillos, ajústelo, apriete; luego pulse.

## The console: what may be pressed, asked and filled in

all-done = ¿Está todo hecho?
not-zeroed = No lo puse a cero: continuar
not-bumped = Ni prefijado ni golpeado: continuar
take-back = Retirar el último paso
why = Por qué
abandon = Abandonar esta auditoría
abandon-sure = La auditoría acaba sin dictamen. Lo leído sigue registrado.
safe-read = Segura, y el número está leído
number-read = Número del comparador
numbers-read = Números de ambos comparadores
numbers-are = { $numbers }
number-ends = O escriba sus dos últimos caracteres
numbers-end = O escriba los dos últimos caracteres de ambos, con un espacio
ram-moved = Segura y correcta, pero carnero o torreta se movieron desde la última vez
ram-swung-by = Carnero girado, como 15 deg
untouched = Con candado, todo sin tocar
untouched-tight = Con candado, todo sin tocar, apretados { $bolts }
touched = Con candado, pero se tocó el comparador o { $of ->
    [check] aquello sobre lo que está
   *[head] el cabezal
 }
touched-tight = Con candado, apretados { $bolts }, pero se tocó el comparador o el cabezal
are-cracked = Con candado, pero aflojados { $bolts }
take-free = El palpador está libre: tomar la lectura
pushed = Empujado y soltado
take-reading = Tomar la lectura
take-reading-at = Tomar la lectura { $at }
stands-at = Está { $at }: tomarla
off-scale-record = Fuera de escala { $at }: registrarlo
off-scale-found = El cabezal como se encontró se registra fuera de la escala del comparador; no se guarda lectura.
off-scale-now = El cabezal como está ahora se registra fuera de la escala del comparador; no se guarda lectura.
touch-again = El comparador se puso a cero: prueba de toque
leave-it = Dejarlo como está
leave-it-why = Por qué se deja el cabezal como está
tight-again = Otra vez apretados: { $bolts }
tighten-anyway = { $out }: ¿apretar de todos modos?
cracked = Aflojados { $bolts }
shim-in = Calza puesta, tornillos arrimados
stopped = Giro parado, manos fuera
put-right-again = { CAP($bolt) } corregido: leer otra vez
bolt-pulled-up = { CAP($bolt) } apretado
all-tight = Todo apretado
square-now = Escuadrarlo ahora
axis-first = { $axis } primero
leave-axis = Hoy no tocar { $axis }
leave-axis-why = Por qué no se toca
set-and-tight = Ajustado y otra vez apretado
sweep-again = Otro barrido
arm-is-where = { $of ->
    [check] El comparador
   *[head] El brazo
 }
arm-still-in = Sigue puesto, candado puesto
arm-was-taken-out = Se sacó: antes preparar y tocar
sweep-again-why = Por qué otro barrido
because = { $because ->
    [chip] Una viruta
    [bumped] Un golpe
    [unsure] No es seguro
   *[other] Otra cosa
}
in-own-words = Con sus propias palabras
ring-turned = Anillo a media vuelta: otro barrido
arm-turned = Brazo a media vuelta: otro barrido
cleared = { $drawbar ->
    [hand] Brazo fuera, llave fuera del tirante
   *[power] Brazo fuera, tirante vacío
 }
done-by = Hecha por
last-good = Última vez que constaba bien
last-good-why = { $sure ->
    [yes] Según el registro: la auditoría { $audit } la dejó en tolerancia ese día.
   *[no] Según el registro: la auditoría { $audit } la dejó en tolerancia ese día, con un reloj que nadie había puesto en hora.
 }
disposition = Qué pasa con el trabajo hecho desde entonces
as-found-sweep = El barrido que muestra cómo se encontró el cabezal
as-found-why = Por qué, si no es el barrido { $number }, el primero antes de aflojar nada
as-left-sweep = El barrido que muestra cómo queda el cabezal
as-left-why = Por qué, si no es el barrido { $number }, el primero tras el último apriete
reviewed-by = Revisada por
note = Nota
sign = Firmar
sweep-came-to = Barrido { $number }: { $word }

## What speaks against a gauge or the dates, and why a verdict is signed all the same

all-the-same = ¿Por qué firmar de todos modos?
clock-not-sure = Ningún servidor de hora ha puesto el reloj en hora: las calibraciones se juzgaron por el día que indica, { DAY($today) }.
clock-set-meanwhile = El reloj se puso en hora durante esta auditoría, de { $before } a { $after } UTC: sus fechas pueden estar mal.
no-reason-to-sign = all_the_same: no se encontró nada; se admite: por qué se firma de todos modos. { $facts }
signed-all-the-same = Firmada de todos modos: { $why } ({ $facts })

## What a verdict is of

measurand-lean = Medido: el eje del husillo frente a { $seat ->
    [ring] aquello sobre lo que está el anillo
    [plate] aquello sobre lo que está la placa
    [block] aquello sobre lo que está el bloque, punto por punto
   *[table] la superficie de la mesa
 }, en este círculo (Ø { $across }). { $by }
measurand-check = Medido: { $kind ->
    [runout] cuánto salta la barra o el agujero al girar el husillo a mano, en los lugares leídos
    [travel] cómo está la superficie sobre la que se lee respecto del recorrido de la mesa, en la longitud leída
    [vise] cómo está la boca fija de la mordaza respecto del recorrido de la mesa, en la longitud de la boca
    [morning] si el cabezal sigue donde lo dejó su último barrido firmado, en los dos puntos leídos
   *[other] { $name }
 }. { $by }
gauge-known = { $name } ({ $number })
condition-and-gauge = Comparador: { $gauge }. Estado: { $condition }
signed-by-rule = Regla: { $rule }
likely-inside = Probabilidad de conformidad: { $of }.
likely-of = { $name } { $likely }
as-vector = magnitud de la inclinación

## The numbers behind a verdict

head-as-found = el cabezal como se encontró
rule-of = { $together ->
    [jointly] ambos ejes juntos
    [vector] la magnitud de la inclinación
    [figures] cada valor por sí solo
   *[each] cada eje por sí solo
}
rule-simple = Simple: el número mismo frente a su límite, { $of }.
rule-guarded = Con guarda: { $sure } de seguridad, { $of }.
many = muchos
cancels = se cancela
nearly-certain = más del 99.9 %
hardly-ever = menos del 0.1 %
head-unknown = De cómo responde este cabezal aún no se sabe más que lo que dice su archivo.
head-answers = { $axis }: el pivote actúa a { $pivot } del husillo, más o menos { $doubt }; el otro eje lo sigue en { $cross } %, más o menos { $cross_doubt }.

## Why a stop-at, or a shim, is what it is: each with what it makes of the number

why-base = Base: { $base }, leído { $at }. Parar en { $stop }.
why-shim = La calza: { $thickness }.
why-lean = { CAP($end) } en { $by } a lo ancho del barrido, su pivote a { $pivot } { $where ->
    [beyond] más allá del husillo
   *[this-side] a este lado del husillo
}, más o menos { $doubt }: el comparador ve { $sees } veces eso, { $makes }.
why-shim-lean = { CAP($end) } en { $by } a lo ancho del barrido, los tornillos separados { $spacing }: { $sees } veces eso, { $makes }.
why-cross = { $axis }, aún por mover, lo llevará { $by } { $end }: { $makes } por eso.
why-no-cross = { $axis }: no se deja nada para su movimiento.
why-tightening = El apriete lo llevará { $by } { $end }, más o menos { $doubt }: { $makes } por eso.
why-no-tightening = Apriete: no se deja nada para él; puede hacer { $doubt } en ambos sentidos.
why-rest = Parado y soltado, aún va { $by } { $end }: { $makes } por eso.
why-no-rest = Al soltar: no se sabe que vuelva nada.
why-shelf = La calza más parecida que hay: { $makes }.
why-bend = La altura del pivote curva su camino: { $makes }.

## What changed, and a press that did nothing

told-where = { $what } ({ $where })
told-axis = { $axis ->
    [nod] cabeceo
   *[side] ladeo
}
told-place = { $place ->
    [front-right] el frente derecho
    [right] la derecha
    [back-right] el fondo derecho
    [back] el fondo
    [back-left] el fondo izquierdo
    [left] la izquierda
    [front-left] el frente izquierdo
    [front] el frente
   *[other] { $place }
}
audit-was-opened = se abrió una auditoría
bolt-has-moved = un tornillo había cedido
bolts-were-tried = se probó cada tornillo
run-out-was-first = se eligió primero el salto
angle-was-asked = se preguntó si el cabezal sigue en ángulo
head-was-set-back = el cabezal se volvió a cero con su escala
squaring-was-wanted = se escuadró tras una comprobación
other-axis-is-first = se eligió qué eje va primero
axis-was-left-alone = un eje no se toca
machine-was-levelled = se niveló la máquina
machine-was-prepared = se preparó la máquina
service-was-restarted = el servicio se arrancó otra vez
machine-was-made-safe = se dijo que la máquina está segura
free-reading-was-taken = se tomó la lectura libre
contact-was-pushed = se empujó el palpador
arm-was-flicked = se dieron los toquecitos al brazo
reading-was-taken = se tomó una lectura
station-was-read = se leyó una estación
check-was-finished = se terminó una comprobación
sweep-was-finished = se terminó un barrido
parked-reading-was-taken = se tomó la lectura de estacionado
question-was-answered = se respondió una pregunta
zero-was-noticed = el número fue a cero
parked-spot-was-read-again = se leyó otra vez el punto de estacionado
bolts-were-cracked = se aflojaron tornillos
stop-was-asked-about = se preguntó por un paro lejos de la parada
adjuster-was-turned = se giró un mando
pair-check-was-finished = se terminó una comprobación de dos puntos
bolts-were-tightened = se apretaron tornillos
bolt-was-pulled-up = se apretó un tornillo
head-is-off-scale = el cabezal está fuera de la escala del comparador
head-was-brought-closer = se acercó el cabezal
head-was-learned = se aprendió algo del cabezal
sweep-was-asked-for = se pidió otro barrido
touch-was-asked-for = hay que repetir la prueba de toque
head-is-left = el cabezal se deja como está
machine-was-cleared = se recogió la máquina
audit-was-signed = se firmó la auditoría
audit-was-put-aside = se apartó la auditoría
machine-was-left = se dijo cómo queda la máquina
audit-was-taken-up = se retomó la auditoría
audit-was-abandoned = se abandonó la auditoría
step-was-taken-back = se retiró el último paso
gauge-was-noticed = se notó algo del comparador
audit-was-attested = la clave del taller firmó una auditoría
clock-stepped = se puso en hora el reloj de la Pi
samples-let-go = se eliminaron muestras, como dice el archivo del taller
gauge-was-checked = se comprobó el comparador con longitudes conocidas
gauge-stopped = el comparador dejó de dar lecturas
gauge-is-back = el comparador da lecturas de nuevo
steps-before = { $full ->
    [yes] { $more } pasos o más
   *[no] { $more ->
        [one] { $more } paso
       *[other] { $more } pasos
    }
} antes de los últimos { $last }
# Short enough for the wall.
not-taken = NO SE TOMÓ: { FIRST($why) }
not-done = No se hizo: { FIRST($why) }

## An audit on record: its page

no-records-here = Aquí no se puede leer ninguna auditoría.
title-record = { $machine }, { $short }: registrada
record-head = Cabezal frente a mesa
record-state = { $stands ->
    [signed] Firmada
    [given-up] Abandonada, sin dictamen
   *[open] Abierta: aún sin firmar
 }
record-practice = PRÁCTICA: no es de una máquina real
record-of = Auditoría { $short }
record-unbroken = Comprobado ahora mismo: intacto. { $rows ->
    [one] Su única fila está como se escribió, cotejada
   *[other] Todas sus { $rows } filas están como se escribieron, cotejadas
 } con el hash de la fila anterior, y { $evidence ->
    [0] así estarían sus muestras: no nombra ninguna
    [one] así están sus muestras, una pieza
   *[other] así están sus muestras, { $evidence } piezas
 }{ $gone ->
    [0] {""}
   *[other] {" "}({ $gone } más se eliminaron a propósito, y una fila lo dice)
 }. Toda la cadena la comprueba "headsweep ledger verify".
record-broken = NO ESTÁ COMO SE ESCRIBIÓ: { $many ->
    [one] fila { $rows }
   *[other] filas { $rows }
 }, o las muestras nombradas ahí. No se fíe de este registro. Conserve la carpeta de datos como está y ejecute "headsweep ledger verify".
record-when = { DAY($utc) } UTC{ $sure ->
    [no] {" "}(reloj sin poner en hora)
   *[yes] {""}
 }{ $local ->
    [none] {""}
   *[other] , { DAY($local) }
 }
record-by = { $by }, { $when }
record-papers = { $of }: { $are }
record-checked-on = comprobado el { DAY($day) }{ $passed ->
    [no] , no superada
   *[yes] {""}
 }
fact-reason = Abierta por
fact-opened = Abierta
fact-given-up = Abandonada
fact-signed = Firmada por
fact-reviewed = Revisada por
fact-last-good = Última vez bien
fact-disposition = Trabajo desde entonces
fact-note = Nota
fact-ring = Anillo
fact-tool = Herramienta
fact-across = Diámetro del círculo
fact-card = En la tarjeta
record-guard = { $axis }: margen { $guard }{ $rests ->
    [none] {""}
   *[other] {" "}({ $rests })
 }. { $risk }
record-results = Qué resultó
record-as-found = Como se encontró
record-as-left = Como se dejó
record-not-read = no leído así
record-added = Añadido tras la firma
record-what-to = En qué se basa
record-facts = Quién, cuándo, con qué
record-swept = Barridos y comprobaciones, cada lectura
record-moves = Movimientos y tornillos
record-asked = Preguntas y respuestas
record-rows = Cada fila ({ $rows })
record-none = Nada.
record-above = Lo leído, movido y preguntado se cuenta con sus números más arriba.
record-row = Fila { $n }
record-row-hash = hash
record-row-samples = muestras
record-row-bad = NO ESTÁ COMO SE ESCRIBIÓ
record-let-go = eliminadas por la fila { $by }
record-struck = Retirada por la fila { $by }
record-last = Fila { $row }, hash { $hash }
record-place = Posición
record-read = Lectura
record-spread = Dispersión
record-samples = Muestras
record-data = Como datos
readings-alone = Lecturas empezadas de nuevo
pair-check-of = Comprobación de dos puntos, { $axis }
other-gauge-at = { $place }, otro comparador
budget-u = u
record-u = U { $by }
budget-dof = Libertad

## A recorded audit, played again

record-play = Reproducirla en la pared
play-mark = REGISTRO del { DAY($day) }, { $short }: no es en vivo
play-not-live = REGISTRO: no es en vivo
play-no-number = Aquí no hay número registrado
play-unread = Ahora no se puede leer el registro
play-no-moment = moment: se encontró { $found }; se admite: de 0 a { $last }
play-moves = Por el registro
play-first = Inicio
play-back = Atrás
play-run = Reproducir
play-halt = Pausa
play-on = Adelante
play-step = Paso siguiente
play-other = Pared / consola
play-leave = El registro

## An audit's rows, told afterwards: by whom

row-by = { $by }
row-by-service = el servicio mismo
row-pressed = { $at ->
    [console] consola
    [wall] pared
    [screen] pantalla
   *[other] { $at }
 }{ $screen ->
    [none] {""}
   *[other] {" "}({ $screen })
 }{ $right ->
    [sign] , con PIN
    [practice] , práctica
   *[other] {""}
 }

## An audit's rows, told afterwards: what was read, done and said, with its numbers

row-read = { $by ->
    [second] El otro comparador leyó
   *[first] Leyó
 } { $value }, dispersión { $spread }, { $samples ->
    [one] 1 muestra
   *[other] { $samples } muestras
 }
row-why = Por qué: { $why }
row-number = Número del comparador: { $number }
row-laid = { $ring }, su marca hacia { $at }
row-clamped = Marca del husillo hacia { $at } con el brazo al frente
row-touched = Entretanto se tocó el comparador o el cabezal
row-cracked = Entretanto se aflojaron tornillos
row-ram-moved = Se movió el carnero o la torreta: lo aprendido antes ya no vale
row-wanders = Vaga { $by }
row-pushed = Movió { $by }
row-stayed-away = { $by } lejos en el peor caso
row-not-taken = No se da por hecho
row-preload = Hundido { $by }
row-sweep = Barrido { $n }, { $purpose ->
    [as-found] como se encontró
   *[final] tras el trabajo
 }{ $turned ->
    [ring] , anillo a media vuelta
    [arm] , brazo a media vuelta
   *[none] {""}
 }
row-return = Retorno { $by }
row-spare = Control de las cuatro { $by }
row-added = Quitado, { $of ->
    [ring] del anillo
    [arm] del husillo
   *[none] ya conocido
 }: ladeo { $side }, cabeceo { $nod }
row-sweep-again = No utilizable: otro barrido
row-round = Ronda { $n }
row-round-again = No utilizable: se leyó otra vez
row-axis = { $axis }: { $value } { $unit } ({ $low }), se admite { $limit }, { $doubted ->
    [expanded] U
   *[standard] u
 } { $doubt }: { $word }
row-whole = La inclinación en conjunto: { $word }, dentro con { $likely }
row-shift = El apriete lo desplazó { $by }
row-before-tightening = Diferencia antes de apretar { $d }
row-shift-doubted = No se cree un desplazamiento de { $by }: leer otra vez
row-by-hand = Desde { $base }: un pequeño giro a mano
row-shim = Calza de { $thickness }, detrás de { $place }
row-stop-at = Desde { $base }, parar en { $stop }{ $turns ->
    [none] {""}
   *[other] , { $turns }
 }{ $past ->
    [none] {""}
   *[other] , pasando antes { $past } de largo
 }
row-asked = Preguntado: { $what }
row-answer = Respuesta: { $what }
row-relabelled = Barrido { $n }, sus puntos corregidos
row-expected = Esperado { $value }
row-came-back = Volvió con { $by } de diferencia
row-dropped = El número se movió { $by }
row-past = Más allá de la parada { $by }
row-bolt = { $bolt }, paso { $step }
row-creeps = Aún puede ceder una inclinación de { $by } mm en 100 mm
row-bolt-did = Este paso { $by }, desde el primero { $since }{ $over ->
    [yes] , más de lo que uno puede
   *[no] {""}
 }
row-beyond = Más allá { $by }
row-zeroed = De { $before } a { $after }
row-lost = Este punto leía { $value } justo antes
row-fault = Fallo: { $code ->
    [silent] no llega nada
    [unplugged] desenchufado
    [stuck] su lector está parado
    [other-channel] otros envían por su puerto, él no
   *[other] { $code }
 }
row-unit = Muestra { $unit ->
    [in] pulgadas
   *[mm] milímetros
 } desde aquí
row-gauge = Comparador: { $gauge }
row-verdict = Dictamen: { $verdict ->
    [conforms] conforme
    [does-not-conform] no conforme
    [nothing-moved] nada se movió
    [look-closer] mire mejor
   *[cannot-be-decided] no se puede decidir
 }
row-found = Como se encontró
row-left = Como se dejó
row-moves = { $moves ->
    [0] Ningún movimiento
    [one] Un movimiento
   *[other] { $moves } movimientos
 }
row-tightened = El apriete desplazó { $axis } { $by }
row-callout = Preguntado por { $of ->
    [bore] un mandrinado de { $size } de profundidad
    [wall] una pared de { $size } de altura
   *[face] una cara de { $size } de ancho
 }{ $cutter ->
    [none] {""}
   *[other] , fresa { $cutter }
 }{ $step ->
    [none] {""}
   *[other] , en pasadas separadas { $step }
 }
row-enough-basis = Por el barrido de la auditoría { $audit }{ $day ->
    [none] {""}
   *[other] , firmada el { DAY($day) }
 }
row-listed = Barrido { $n }{ $stands ->
    [left] : como se dejó
    [found] : como se encontró
   *[none] {""}
 }{ $usable ->
    [true] {""}
   *[false] , no utilizable
 }
row-reviewed = Revisada por { $by }
row-last-good = Última vez que constaba bien: { DAY($day) }
row-disposition = Trabajo desde entonces: { $what }
row-note = Nota: { $note }
row-found-why = Otro barrido vale como se encontró: { $why }
row-left-why = Otro barrido vale como se dejó: { $why }
row-borne-out = La auditoría anterior tenía { $sure } % de seguridad: { $agreed ->
    [yes] confirmada
    [no] no confirmada
   *[not-counted] no se coteja con esta
 }
row-handed = { $left } a { $taken }
row-number-of = { $n }
row-takes-back = { $many ->
    [one] Retira la fila { $rows }
   *[other] Retira las filas { $rows }
 }
row-addendum = A la firma de la fila { $signed }. { $kind }: { $text }
row-measure = { $name }: { $value }, U { $doubt }{ $limit ->
    [none] {""}
   *[other] , se admite { $limit }
 }{ $toward ->
    [none] {""}
   *[other] , { $toward }
 }{ $sees ->
    [none] {""}
   *[other] , se habría visto { $sees }
 }{ $word ->
    [none] {""}
   *[other] : { $word }
 }
row-toward = hacia { $deg }°
row-arm-stays = El brazo se queda en el husillo
row-tapped = { $end } { $by }, hasta { $stop }
row-not-tapped = Se deja como está
row-differs = { $why ->
    [changed] Ha cambiado: se aprende de nuevo
    [not-half] No se giró a media vuelta exacta
   *[misread] Su marca se leyó mal, o nadie lo sabe: no se aprende nada
 }
row-station = { $at }
row-first = { $axis } primero
row-walked = Derivó { $by } en { $seconds } s
row-not-steady = No constante
row-steady = Constante, { $by } por minuto
row-rested = Asentado en { $at }
row-friction = Rozamiento u { $u }, { $returns ->
    [one] de 1 toquecito
   *[other] de { $returns } toquecitos
 }
row-tried = Llave a { $bolts }
row-tried-moved = { $many ->
    [0] Ninguno cedió
   *[other] Cedió: { $bolts }
 }
row-angled = { $still ->
    [yes] Sigue en ángulo
   *[no] Ya no está en ángulo
 }
row-left-safe = Todo apretado, el brazo fuera

## An open audit handed over

hand-over = Traspasar
handed-by = Quién la deja
handed-to = Quién la toma
handed-from-nobody = left_by: no se encontró nada; se admite: el nombre o las iniciales de quien deja esta auditoría
handed-to-nobody = taken_by: no se encontró nada; se admite: el nombre o las iniciales de quien toma esta auditoría
handed-to-oneself = Nadie se traspasa una auditoría a sí mismo: diga quién la toma.
audit-was-handed-over = se traspasó la auditoría
handed-over = Traspasada por { $left } a { $taken }, { DAY($day) } { $time } UTC{ $sure ->
    [no] {" "}(reloj sin poner en hora)
   *[yes] {""}
}
signed-by = Firmada por { $by }
in-hand-of = La tiene { $taken }, de { $left }

## An addendum to a signed audit

addendum-kind = { $kind ->
    [gauge-number] Número de comparador equivocado
    [name] Nombre equivocado
    [finding] Hallado después
   *[other] Otra cosa
}
addendum = { $kind ->
    [other] Añadido
   *[known] { addendum-kind }
} ({ $by }, { DAY($day) }{ $sure ->
    [no] {", "}reloj sin poner en hora
   *[yes] {""}
}): { $text }
addenda-before = { $more ->
    [one] Antes se añadió una cosa.
   *[other] Antes se añadieron { $more } cosas.
}
has-addenda = { $count ->
    [one] Desde entonces se le añadió una cosa.
   *[other] Desde entonces se le añadieron { $count } cosas.
}
addendum-under = O añada algo a la última auditoría firmada.
addendum-what = ¿De qué se trata?
addendum-says = En pocas palabras (hasta { $most } caracteres)
added-by = Añadido por
add-to-signed = Añadir a la auditoría { $audit }
addendum-was-made = se añadió algo a una auditoría firmada
addendum-not-signed = audit: se encontró { $found }; se admite: el id de una auditoría firmada en { $machine }
addendum-text = text: se encontraron { $found } caracteres; se admite: de 1 a { $most }
addendum-by-nobody = done_by: no se encontró nada; se admite: el nombre o las iniciales de quien añade esto

## The list of audits on record

records-title = Registros
records-is = cada auditoría: qué resultó, por quién, con qué comparador
records-of = Registros de { $machine }
records-machines = Por máquina
records-failed = Comparadores que no superaron una comprobación
records-show-them = Mostrar
records-open-now = Abiertas ahora
records-newest = Auditorías, las más nuevas primero
records-filter = Filtro
records-ask = Mostrar
records-all = Todas las auditorías
records-older = Auditorías anteriores
records-none = Ninguna auditoría coincide.
records-days = Los días son los de la zona horaria del taller; UTC figura junto al día si no se nombra ninguna. Hay un "?" donde ningún servidor de hora había puesto el reloj en hora.
records-any = cualquiera
records-yes = sí
records-no = no
listed-part = { $of ->
    [audit] Auditoría
    [day] Día
    [machine] Máquina
    [what] Qué y por qué
    [came] Resultado
    [side] Ladeo
    [nod] Cabeceo
    [who] Quién
    [gauge] Comparador
    [notes] Además
    [kind] Comprobación
    [since] Desde
    [until] Hasta
    [verdict] Resultado
    [by] Por
    [failed_check] Comparador fallado después
    [voided] Algo retirado
    [practice] Práctica
   *[open] Abierta
}
listed-day = { DAY($day) }{ $sure ->
    [no] ?
   *[yes] { "" }
 }{ $zone ->
    [UTC] { " " }UTC
   *[other] { "" }
 }
listed-moves = { $moves ->
    [one] { $moves } movimiento
   *[other] { $moves } movimientos
}
listed-amended = El informe { $report } reemplaza a uno anterior.
listed-taken-back = { $rows ->
    [one] { $rows } fila retirada
   *[other] { $rows } filas retiradas
}
list-is-made = Se está haciendo la lista de auditorías: { $behind ->
    [one] falta { $behind } fila
   *[other] faltan { $behind } filas
}.
listed-what = { $check }. { $reason }
listed-came = { $came ->
    [conforms] conforme
    [does-not-conform] no conforme
    [cannot-be-decided] no se puede decidir
    [nothing-moved] nada se movió
    [look-closer] mire mejor
    [at-rest] abierta, apartada
    [given-up] abandonada
   *[open] abierta
}
listed-left = quedó { $left } ± { $doubt } { $unit }, se admite { $limit }
listed-found = se encontró { $found } { $unit }, { $left }
listed-failed = El comparador { $gauge } no superó su comprobación el { DAY($day) }: { $audits ->
    [0] ninguna auditoría lo usó
    [one] { $audits } auditoría lo usó
   *[other] { $audits } auditorías lo usaron
} { $known ->
    [yes] desde el { DAY($since) }, la última vez que constaba bien
   *[no] antes; no se sabe cuándo estuvo bien por última vez
}.

## The trend

found-angled = Empezada tras trabajo en ángulo: cómo se encontró no dice nada de cómo se mantuvo a escuadra.
found-set-back = Vuelto a cero con su escala tras trabajo en ángulo: no como se encontró.
found-off-scale = Encontrado fuera de la escala del comparador.
limits-come = Los límites llegan con { $fewest } valores; { $there ->
    [one] hay { $there }
   *[other] hay { $there }
}.
outside-limits = Fuera de los límites: { $values ->
    [one] { $values } valor
   *[other] { $values } valores
}{ $which ->
    [shown] {" "}de los mostrados
   *[all] {""}
}, el último el { DAY($day) }.
has-drifted = Ha derivado: { $values ->
    [one] { $values } valor suavizado
   *[other] { $values } valores suavizados
}{ $which ->
    [shown] {" "}de los mostrados
   *[all] {""}
}, el último el { DAY($day) }, fuera de los límites suavizados.
inside-limits = Cada valor{ $which ->
    [shown] {" "}mostrado
   *[all] {""}
} está dentro de los límites, y no ha derivado.
check-head = Escuadrado del cabezal
last-signed = Firmada por última vez el { DAY($day) } (auditoría { $audit }), { $word ->
    [in] dentro
    [close] no se puede decidir
   *[out] fuera
}.
last-looked = Mirado por última vez el { DAY($day) } (auditoría { $audit }): { $word ->
    [in] nada se movió
   *[out] mire mejor
}.
no-interval = No hay intervalo acordado.
none-signed = No consta ninguna auditoría firmada: toca una.
clock-not-set = Ningún servidor de hora había puesto el reloj en hora cuando se firmó la última.
overdue = Vencida hace { $days ->
    [one] { $days } día
   *[other] { $days } días
}: tocaba el { DAY($day) }.
due-today = Toca hoy.
due-on = Toca el { DAY($day) }, dentro de { $days ->
    [one] { $days } día
   *[other] { $days } días
}.

no-such-page = before: se encontró { $before }; se admite: una fila dada como `more`

## Pictures, and the tables beside them

picture-run = { $axis }, { $unit } en { $over }: como se encontró y como se dejó
picture-run-says = Como se encontró: { $found } Como se dejó: { $left }
picture-drifts = Deriva desde el { DAY($day) } (auditoría { $audit }): { $end }.
picture-shift = { $axis }, { $unit } en { $over }: qué hizo el apriete
picture-pivot = { $axis }, { $unit } desde el husillo: dónde actúa el pivote
picture-pivot-says = Como se sabe ahora: { $at }, más o menos { $doubt }; { $audits ->
    [0] lo dice el archivo de la máquina
    [one] aprendido de 1 auditoría
   *[other] aprendido de { $audits } auditorías
}.
picture-sweep = Barrido { $n }, { $unit } en { $over }, visto desde arriba
picture-sweep-says = { $side }, { $nod }.
picture-samples = { CAP($at) }: { $samples ->
    [0] no se guarda ninguna muestra
    [one] 1 muestra
   *[other] { $samples } muestras
}, { $unit }
picture-samples-says = La lectura es { $mean }, la media de { $count ->
    [one] 1 muestra
   *[other] { $count } muestras
}.
picture-move = { $axis }: el camino del número durante un movimiento, { $unit }
picture-move-says = De { $base } a { $end }; había que parar en { $stop }.
picture-move-by-hand = De { $base } a { $end }: un pequeño giro a mano.
picture-tightening = { $axis }: el camino del número al apretar los tornillos, { $unit }
picture-tightening-says = De { $base } a { $end }.
picture-thinned = { $title }, los extremos de { $samples } muestras
no-samples-kept = Sus muestras no están.
no-audit-yet = Aún no hay auditoría firmada.
no-tightening-yet = Aún no se apretó nada.
no-pivot-yet = Aún no se sabe nada.
mark-found = como se encontró
mark-left = como se dejó
mark-hollow = hueco: vea observaciones
mark-shift = un apriete
mark-learned = aprendido
mark-from-file = del archivo de la máquina
mark-flagged = señalado por el comparador
mark-low = bajo
mark-allowed = se admite
mark-remains = fuera del plano ajustado: { $at }
mark-smoothed = suavizado
mark-seconds = s
mark-now = ahora
one-reading = lectura
level-allowed = se admite { $at }
level-control = límite de control { $at }
level-as-left = como se dejó { $at }
level-mean = media { $at }
level-base = empezó en { $at }
level-stop = parar en { $at }
level-end = acabó en { $at }
clock-was-not-set = El reloj no estaba en hora: su fecha puede estar mal.
beyond-control = Fuera de los límites de control.
beyond-smoothed = Derivó.
picture-table = Como tabla
picture-table-of = { $of }, como tabla
picture-past = Saltar los puntos de esta imagen
picture-alone = Más grande, con auditorías anteriores y una tabla
picture-earlier = Auditorías anteriores
picture-of-row = Fila { $row } de la auditoría { $audit }
picture-before = La imagen anterior
picture-after = La imagen siguiente
picture-file = Como archivo para imprimir
picture-first = Cada lectura con sus muestras
pictures-of-audit = Imágenes
no-picture-of-row = La fila { $row } de la auditoría { $audit } no tiene imagen.
no-such-picture = picture: se encontró { $key }; se admite: { $there }
column-audit = Auditoría
column-date = Fecha
column-found = Como se encontró
column-left = Como se dejó
column-shift = Desplazamiento
column-allowed = Se admite
column-smoothed = Suavizado
column-remarks = Observaciones
column-pivot = Distancia
column-doubt = Más o menos
column-place = Posición
column-reads = Lee, sin deriva
column-remains = Fuera del plano
column-seconds = Segundos
column-number = Número

## What signed verdicts were worth, each held against the next as-found

trend-title = Cómo se mantiene a escuadra
trend-is = de auditoría en auditoría, y si sus dictámenes se sostuvieron
held-title = ¿Se sostuvieron los dictámenes?
held-how = Cada «conforme» firmado se coteja con cómo se encuentra el cabezal en la auditoría siguiente. Coincide si los ejes están otra vez dentro de los límites, contando la duda de ambos barridos y cuánto se mueve por sí solo el cabezal entretanto.
held-of-shop = Todas las máquinas del taller
held-stated = Seguridad declarada
held-audits = Auditorías
held-agreed = Coincidieron
held-as-read = Si el cabezal no se hubiera movido
held-between = Un cabezal que se mueve por sí solo y un barrido peor de lo que dice se parecen: lo que valieron los dictámenes está entre las dos últimas columnas.
held-blind = Lo que ambos barridos se desvían por igual, como un mismo anillo puesto del mismo modo, no está en ninguna.
stated-band = { $at ->
    [first] menos del { $high } %
    [last] { $low } % y más
   *[between] de { $low } a { $high } %
}
band-few = Aún muy pocas: { $audits } de { $fewest }
band-share = { $share } % (de { $low } a { $high } %)
reliability-few = Aún muy pocas para decir: de { $fewest } auditorías con seguridad declarada del 90 al 95 %, { $audits ->
    [0] ninguna se ha cotejado
    [one] { $audits } se ha cotejado
   *[other] { $audits } se han cotejado
} con cómo se encontró después.
reliability-share = De { $audits } auditorías con seguridad declarada del 90 al 95 %, cómo se encontró después coincidió en { $share } % (la parte verdadera es de { $low } a { $high } %, 19 de cada 20 veces).
going-unknown = Aún no se sabe cuánto se mueve por sí solo este cabezal de una auditoría a la siguiente: { $pairs } de { $fewest } pares.
going-allowed = Se tiene en cuenta: de una auditoría a la siguiente este cabezal se mueve por sí solo unos { $side } { $unit } de ladeo y { $nod } { $unit } de cabeceo, en { $over } { $unit }.
going-of-each = Se tiene en cuenta: cuánto se mueve por sí solo cada cabezal de una auditoría a la siguiente.
not-counted = No se cuentan: { $audits ->
    [one] { $audits } auditoría
   *[other] { $audits } auditorías
}, { $why ->
    [after-angled-work] tras trabajo en ángulo
    [crash] tras un choque
    [moved] tras trasladar la máquina
    [maintenance] tras mantenimiento
    [bolts] con tornillos aflojados entretanto
    [ram] con el carnero girado entretanto
    [seat] barrido sobre otra superficie
    [long] más de un año después
    [learning] para aprender cuánto se mueve por sí solo el cabezal
   *[wanders] porque el cabezal se mueve por sí solo mucho más que la duda de ambos barridos
}.

## A gauge: its port

of-gauge = { $gauge }: { $say }
its-port = su puerto
either = { $one } o { $other }
not-yet-opened = { $gauge }: aún sin abrir.
port-gone = { $it } ha desaparecido: ¿está enchufado el cable?
port-not-there = { $it } no está: ¿está enchufado el cable?
port-being-plugged-in = { $it } se está enchufando ahora mismo.
port-busy = otro programa tiene abierto { $port }; ciérrelo allí.
port-not-allowed = este usuario no puede abrir { $port }: la página de instalación dice qué hacer.
port-not-allowed-in-full = { $group ->
    [none] el usuario { $user } no puede abrir { $port }, y no se admite a ningún grupo: falta su regla udev, vea hardware/README.md.
   *[other] el usuario { $user } no puede abrir { $port }. Como root: usermod -aG { $group } { $user }. Luego inicie sesión de nuevo, o reinicie el servicio.
}
port-folder-not-there = { $it } no está, ni su carpeta: ¿está enchufado el cable y es correcto el nombre? headsweep gauge list muestra los puertos que hay.
port-is-none = { $it } no es un puerto serie: corrija el archivo del comparador; headsweep gauge list muestra los puertos que hay.
port-of-no-kind = { $it }: no existe ese tipo de puerto. Se admite: una ruta como /dev/serial/by-id/…, socket:// o rfc2217:// con el nombre y el puerto de un servidor, keys:///dev/input/by-id/…, hid://VENDOR:PRODUCT.
port-needs-package = { $it } necesita un paquete más. Como root: apt-get install { $package }. Luego reinicie el servicio.
port-wrong-settings = { $it } no acepta esta velocidad, bits o paridad: corrija el archivo del comparador.
port-cannot-be-opened = { $it } no se puede abrir; el sistema dice: { $why }.
port-cannot-be-opened-in-full = { $it } no se puede abrir: { $error }
port-not-opened = { $it } no se puede abrir: la página de instalación dice más.
server-gone = { $it } ha terminado la conexión: ¿tiene corriente y red el servidor serie, y no usa nadie más su puerto?
server-not-named = { $it } no nombra ningún servidor: corrija el archivo del comparador, { $scheme }://NAME:PORT.
server-refuses = { $it } no acepta conexiones: ¿funciona el programa del servidor serie, y es correcto el número de puerto?
server-unknown = { $it }: en esta red no se conoce ningún equipo con ese nombre: corrija el nombre en el archivo del comparador, o escriba su dirección.
server-does-not-answer = { $it } no responde: ¿tiene corriente y red el servidor serie?
server-hangs-up = { $it } termina la conexión enseguida: ¿lo usa otro programa, está puesto su propio cable, y habla como dice el archivo del comparador (rfc2217:// o socket://)?
server-option-unknown = { $it }: tras el ? hay una opción que no existe. Se admite: ign_set_control, poll_modem, timeout=SECONDS.
server-lacks-control = { $it }: su servidor serie no responde cuando se le indica el control de flujo. La página de instalación dice qué escribir en su archivo.
server-lacks-control-in-full = { $it } no responde cuando se le indica el control de flujo. No se lo pida: en el archivo del comparador, port = "{ $cure }"
server-refuses-setting = { $it } no acepta { $key ->
    [baud] la velocidad
    [bits] el número de bits de datos
    [parity] la paridad
   *[stop] el número de bits de parada
 } del archivo del comparador: corrija ahí { $key }, o lo que admite el servidor serie.
server-speaks-otherwise = { $it } no responde como pide RFC 2217: actívelo en el servidor serie, o escriba socket:// y ponga allí velocidad y paridad.
port-shared = otro programa también lee o escribe { $port } y se lleva bytes; cierre ese programa.
port-speed-changed = otro programa cambió la velocidad de { $port } de { $was } a { $now } baudios; cierre ese programa.
port-framing-changed = otro programa cambió los bits, la paridad o los bits de parada de { $port }; cierre ese programa.
port-reading-changed = otro programa cambió cómo se lee { $port }; cierre ese programa.
port-exchanged = { $it } lleva a otro aparato que antes: ¿se cambiaron dos comparadores entre sí? Devuélvalos a su sitio, o desenchufe el adaptador y enchúfelo otra vez.
port-ambiguous = { $it } puede ser cualquiera de varios adaptadores que solo se distinguen por su toma: la página de instalación dice qué escribir en su archivo.
port-ambiguous-in-full = { $it } puede ser cualquiera de varios adaptadores que solo se distinguen por su toma: escriba la toma en el archivo del comparador, { $folder }/… ({ $sockets }).
port-other-adapter = { $it } es otro adaptador que antes (número de serie { $number ->
    [none] ninguno
   *[other] { $number }
 }, era { $before ->
    [none] ninguno
   *[other] { $before }
 }): vuelva a poner el primero, o reinicie el servicio si el cambio es a propósito.
port-other-socket = { $it } está en otra toma que antes y su adaptador no se distingue de otros: devuélvalo a su sitio; la página de instalación dice qué hacer si el cambio es a propósito.
port-other-socket-in-full = { $it } está en otra toma que antes ({ $socket }, era { $before }) y su adaptador no se distingue de otros: devuélvalo a su sitio, o escriba la nueva toma en el archivo del comparador, { $folder }/…, y reinicie el servicio.
reading-failed = falló la lectura de { $port }: la página de instalación dice más.
reading-failed-in-full = falló la lectura de { $port }: { $error }
port-holds-up-the-pi = { $gauge }: su puerto retiene a la Pi y no responde. Desenchufe su cable y vuelva a enchufarlo; si no ayuda, reinicie headsweep.

## Switches on input pins

switches-not-heard = No se oyen los interruptores: { $why }
pins-no-chip = { $chip ->
    [none] este equipo no tiene pines de entrada.
   *[other] { $chip } no está: ¿está enchufado?
}
pins-not-allowed = este usuario no puede abrir { $chip }: añádalo al grupo gpio.
pins-held = otro programa tiene abierto el pin { $pin }{ $by ->
    [none] {""}
   *[other] {" "}({ $by })
}; ciérrelo allí.
pins-no-such = { $chip } no tiene el pin { $pin }: corrija shop.toml.
pins-failed = { $chip } no se puede usar: { $why }.

## Power: the button, and the supply's signal

power-nothing = shop.toml no nombra ningún pin en [power]: no hay nada que vigilar.
power-not-watched = No se vigilan ni el botón ni la red eléctrica: { $why }
power-well = Todo está bien.
mains-gone = Se fue la corriente.
mains-gone-from-first = La fuente dice desde el principio que se fue la corriente. No se hace nada hasta que haya dicho lo contrario: ¿está puesto su hilo, y es correcto mains_gone_is?
powers-off-soon = Se fue la corriente: la Pi se apaga en { $seconds } s.
powers-off-now = La Pi se apaga.
off-by-button = Se mantuvo pulsado el botón: la Pi se apaga.
off-by-mains = Faltó la corriente { $seconds } s: la Pi se apaga.
off-failed = No se puede apagar: { $why }

## A gauge: what comes from it

gauge-reports-an-error = el comparador mismo avisa de un error: mire su visor.
beyond-its-travel = su palpador está más allá de su recorrido: acerque el comparador.
contact-is-off = dice que su palpador no toca nada: acerque el comparador.
battery-is-empty = su pila está agotada, así que no muestra número: cámbiela.
none-of-its-channel = llegan tramas por su puerto, pero ninguna suya: ¿está encendido su transmisor, y es su canal el del archivo?
check-value-is-wrong = las tramas parecen correctas, pero ninguna cuadra con su valor de control: ¿interferencias en el cable, u otro control que el del archivo?
number-is-missing = las tramas parecen correctas, falta el número: ¿fuera de alcance, o el palpador sin tocar?
unit-is-another = las tramas parecen correctas, pero su unidad no es la del archivo: ¿se pulsó la tecla de unidad?
digits-are-missing = las tramas parecen correctas, pero el número tiene menos dígitos de los que dice el archivo: ¿se pulsó la tecla de su resolución o de su unidad?
frames-are-others = llegan líneas de texto, la velocidad es correcta, pero no son como dice el archivo: ¿otro comparador, u otro ajuste de este? La página de instalación las muestra.
frames-are-others-or-unchecked = llegan líneas de texto, la velocidad es correcta, pero no son como dice el archivo: ¿otro comparador, otro ajuste de este, o sin valor de control? La página de instalación las muestra.
digits-are-coarse = su número tiene menos dígitos que la resolución de su archivo: ¿se pulsó la tecla de su resolución? Si es a propósito, corrija el archivo: cada duda se calcula con ella.
battery-is-weak = su pila está débil: cámbiela antes del próximo trabajo.
link-is-weak = su enlace de radio es débil: despeje el camino hasta su receptor.
answers-too-late = sus respuestas llegan demasiado tarde: dele un timeout más largo.
requests-unanswered = callado: { $n ->
    [one] { $n } petición
   *[other] { $n } peticiones
 } sin respuesta: revise su cable y su pila.
sends-unasked = envía sin que se le pida: ¿le corresponde mode = "streams"?
bad-frames = { $n ->
    [one] { $n } trama mala
   *[other] { $n } tramas malas
}
bytes-came = { $n ->
    [one] { $n } byte
   *[other] { $n } bytes
}
garbled = confuso: { $what } en los últimos { $seconds } s, ninguna trama buena: ¿mala velocidad o mal formato?
none-good = { $what } en { $seconds } s, ninguna trama buena: ¿mala velocidad, bits o paridad?
silent-since = callado desde hace { $seconds } s: revise su cable y su pila.
silent-from-the-first = callado desde hace { $seconds } s: revise su cable, su pila y la velocidad.

## A gauge: its file and its papers

files-amiss = Estos archivos no se pueden usar
machine-file-amiss = { $file }, o el archivo de su comparador, tiene un error: Instalación dice cuál.
shop-file-amiss = shop.toml tiene un error, así que no se puede abrir ninguna auditoría: Instalación dice cuál.
gauge-in-no-file = El comparador '{ $gauge }' no está en ningún archivo de este taller: nada lo lee.
named-by-no-machine = No lo nombra el archivo de ninguna máquina: su puerto no se abre.
gauge-is-well = Habla y está bien.
calibrated-ahead = { $gauge }: su archivo dice que se calibró el { DAY($day) }, y ese día está aún por venir. Mire su certificado.
calibration-overdue = { $gauge }: calibración vencida; era válida hasta el { DAY($day) }.
check-was-failed = { $gauge } no superó su comprobación del { DAY($day) }: revíselo o tome otro.
file-serial-number = Número que lleva
file-certificate = Certificado
file-no-certificate = ninguno en su archivo
file-laboratory = Laboratorio
file-calibrated-on = Calibrado el
file-calibration-due = Calibración válida hasta
file-resolution = Resolución
file-travel = Recorrido
file-max-error = Error admisible
file-counts = Al empujarlo, cuenta
file-counts-way = hacia { $way ->
    [up] arriba
   *[down] abajo
}
file-port = Puerto
file-port-beside = También en este puerto
file-line = Línea
file-line-is = { $baud } baudios, { $bits } bits, paridad { $parity ->
    [even] par
    [odd] impar
    [mark] marca
    [space] espacio
   *[none] ninguna
 }, { $stop } de parada
room-free = { $size } libres

## A machine's file

length-over = { $by } en { $over }
at-most = como máximo { $value }
is-measured = { $value }, medido
not-said = no se dice
no-interval-agreed = sin intervalo acordado
every-days = { $days ->
    [one] cada día
   *[other] cada { $days } días
}
file-gauge = Comparador
file-second-gauge = Otro comparador en la barra
file-surface = Superficie barrida
file-seat = El palpador se apoya en
seat-ring = un anillo
seat-plate = una placa
seat-table = la mesa desnuda
seat-block = un bloque, movido de punto en punto
file-sweep-radius = Radio del barrido
file-positions = Un barrido lee
file-around = { $all }, y otra vez { $first }
file-ram-angle = Carnero
ram-not-swung = sin girar
ram-is-swung = girado { $by } en sentido { $way ->
    [clockwise] horario
   *[anticlockwise] antihorario
 }, visto desde arriba
file-first = Se mueve primero
first-axis = { $first ->
    [worst] el eje más desviado
    [nod] el cabeceo
   *[side] el ladeo
}
file-loosen = Los tornillos se aflojan
file-plan = Pasos
plan-quick = se omite lo que no dice nada nuevo
plan-sure = se comprueba cada movimiento y apriete, se relee cada barrido
loosen-one = un eje cada vez
loosen-both = ambos ejes a la vez
file-verdict = Dictamen
file-rule-simple = simple: el número tal cual, { $together }
file-rule-guarded = con guarda: { $sure } de seguridad, { $together }
together-each = cada eje por sí solo
together-jointly = ambos ejes a la vez
together-vector = la magnitud de la inclinación frente a un límite
file-audit-every = Auditorías
file-limit = Tolerancia
limit-one-sided = bajo { $limit } hacia { $place } en { $over } como máximo, nunca al revés
limit-two-sided = bajo { $limit } hacia { $place }, { $low } hacia { $other } como máximo, en { $over }
file-tolerance = Tolerancia de
tolerance-of-file = el archivo de esta máquina
file-wanted-lean = Inclinación deseada
file-pivot = Pivote
pivot-at = a { $away } de distancia, a { $up } de altura
file-coupling = El otro eje lo sigue en
follows-besides-ram = { $share }, aparte de lo que hace el ángulo del carnero
file-adjuster = Mando
adjust-worm = sinfín
adjust-rack = cremallera
adjust-hand = a mano
adjust-shim = calzas
adjust-none = ninguno: solo informe
finish-raising = acabando al subir { $place }
a-turn-is = una vuelta son { $lean }
backlash-is = holgura { $by }
bolts-apart = tornillos separados { $by }
shims-there-are = las que hay: { $all }
shims-by-step = en pasos de { $by }
file-tightening = Apriete
tighten-unwatched = sin vigilar tornillo por tornillo
tighten-watched = { $bolts }; { $passes ->
    [one] una vez
   *[other] { $passes } rondas
 }, cada uno lo mueve { $most } como máximo
file-slots = Ranuras de la mesa
slots-are = { $count }, de { $wide } de ancho, separadas { $apart }, de { $runs ->
    [left-right] izquierda a derecha, la más frontal
   *[front-back] frente a fondo, la de más a la izquierda
 } a { $start } del husillo; se evitan por { $clear }
file-z = El palpador se baja
down-knee = subiendo la ménsula
down-quill = con la caña
down-powered = con un cabezal motorizado
file-drawbar = Tirante
drawbar-hand = a mano
drawbar-powered = motorizado
file-brake = Freno del husillo
brake-none = ninguno
brake-hand = a mano
brake-spring = de muelle: retiene sin corriente
file-air = Aire comprimido
air-to-be-vented = hay que purgarlo
air-none = ninguno
file-people = En la máquina
people-one = una persona
people-two = dos, un candado cada una
file-after-crash = Tornillos tras un choque
file-torque = Par
torque-none = no se da ninguno
file-uncertainty = Incertidumbre
file-uncertainty-note = Cuánto puede desviarse cada cosa. Lo que un archivo omite es práctica común, sin fuente.
file-repeatability = Una lectura, entre visitas
assumed-until-seen = { $u }, supuesto hasta que las visitas lo digan
worth-dof = { $u }, vale { $dof } grados de libertad
file-wedge = Cuña
file-seating = Asiento
file-flatness = Planitud a lo largo del círculo
file-flatness-by-seat = { $ring } en anillo o placa, { $table } en la mesa
file-drift = Deriva que puede ir y venir sin verse
file-axial = Husillo, una vez por vuelta
file-axial-changes = Su cambio en un año
file-friction = Rozamiento
file-local-error = Comparador, en un tramo corto
a-fifth-of-the-error = un quinto del error admisible del comparador, menos medio dígito
file-scale = Escala del comparador
kelvins = { $of } degC
file-temperature = Un lado del anillo más caliente
file-thickness = Espesor del anillo
file-parallel = Vástago respecto del husillo
file-condition = Se barre en este estado
file-work = Trabajo
file-no-work = El archivo no nombra fresa ni pieza: no se dice qué hace una inclinación.
file-cutter = Fresa de planear
file-cut-width = Franja que corta
file-pass-step = De pasada a pasada
file-hole-depth = Agujero taladrado con la caña
file-bore = Mandrinado, subiendo la mesa
file-feed = Las pasadas van
feed-across = de izquierda a derecha
feed-along = de frente a fondo

## The shop on paper: what its file says for reports, and the papers of its tools and rings

shop-on-paper = El taller en papel
file-shop-name = Nombre
file-address = Dirección
file-method = Método
method-revision = { $method }, revisión { $revision }
file-customer = Cliente
file-time-zone = Zona horaria de las fechas en papel
file-paper = Papel
file-digest = SHA-256 de estos archivos
file-tools = Herramientas y anillos
file-asset = Número en el taller
file-place = Está en
file-thermometer = Su termómetro
a-tool = { $tool ->
    [wrench] Llave dinamométrica
   *[thermometer] Termómetro
 } { $number }
tool-named = { $say }, número { $number }
certificate-is = certificado { $number }
laboratory-is = { $name }
calibrated-on = calibrado el { DAY($day) }
good-until = válido hasta el { DAY($day) }
no-papers = sin papeles nombrados

## Reports that go out by themselves once an audit is signed

on-signing = Cuando se firma una auditoría
to-folder = Los informes van a
to-address = Un aviso va a
way-is-well = { $to }: todo ha llegado
way-owes = { $to }: { $count ->
    [one] uno está en camino
   *[other] { $count } están en camino
 }
way-fails = { $to }: { $count ->
    [0] nada lo espera.
    [one] uno aún no llegó, y se intenta otra vez.
   *[other] { $count } aún no llegaron, y se intenta otra vez.
 } { $why }
folder-not-there = No existe la carpeta { $folder }: ¿está enchufado su disco?
folder-does-not-take = { $folder } no admite nada ({ $why }).
address-not-reached = Nadie responde en { $host } ({ $why }).
address-refused = { $host } respondió con estado { $status }.
to-broker = Se avisa a un broker
broker-messages = Según ocurre
broker-not-yet = Aún no se llegó a { $host }.
broker-gone = { $host } estaba y ya no está ({ $why }).
broker-refuses = { $host } rechaza la conexión ({ $why }): mire usuario y contraseña.
broker-silent = { $host } no confirma que tenga lo enviado.
file-not-usable = { $file } no se puede usar ({ $why }).
password-open = { $file } lo pueden leer otros en este equipo; se admite: solo su dueño (chmod 600)
not-delivered-of-itself = No se pudo hacer lo que entrega la fila { $row } ({ $why }): vea el log.

## What was learned of a head

learned = Aprendido de este cabezal
learned-nothing = Aún nada: la próxima auditoría parte del archivo.
learned-of-another-ram = El archivo dice del cabezal o del carnero algo distinto que cuando se aprendió esto: la próxima auditoría parte del archivo.
learned-from = De { $audits ->
    [one] { $audits } auditoría
   *[other] { $audits } auditorías
 }; tras ± la incertidumbre típica.
learned-pivot = { $axis }: el pivote actúa en
learned-coupling = { $axis }: el otro eje lo sigue en
learned-tightening = { $axis }: el apriete lo desplaza
learned-no-tightening = aún no se vio ninguno
learned-rest = { $axis }: al soltar, el número estacionado vuelve
learned-no-rest = aún no se vio
learned-back = { $back }, hasta el apriete { $later } más, de { $n }
learned-stop = { $axis }: los giros acaban más allá de la parada en
learned-no-stop = aún no se vio ninguno
learned-past = { $past }, por lo general a menos de ± { $apart } de ello, de { $n }
learned-shift = { $shift } en { $over }, de { $n }

## The ledger: what is wrong with its file, its disk or its rows; also told by `ledger verify`
no-such-audit = no tiene la auditoría { $audit }
several-audits = { $asked } es más de una auditoría: { $these }{ $more ->
    [yes] { " " }y más
   *[no] { "" }
 }

of-file = { $path }: { $say }
with-why = { $say } ({ $why })
disk-is-full = el disco está lleno
disk-is-read-only = el disco es de solo lectura
disk-does-not-answer = el disco no responde
disk-reported-an-error = el disco avisó de un error
room-left = quedan { $left } MB en el disco; se quieren: { $wanted } MB
file-is-read-only = el archivo o su disco es de solo lectura
file-is-busy = otro programa está escribiendo en el archivo
file-is-damaged = el archivo está dañado
file-is-no-ledger = el archivo está dañado o no es un libro de registro
file-cannot-be-opened = el archivo no se puede abrir
file-out-of-place = el archivo { $how ->
    [gone] ha desaparecido
   *[another] ya no es el que abrió este servicio
 }; pare el servicio, devuelva el libro a su sitio y arranque
file-ends-elsewhere = el archivo ya no acaba en la fila { $seq } como lo dejó este servicio; reinicie el servicio para que lea lo que hay
ledger-is-closed = el libro está cerrado
database-refused = la base de datos se negó
database-of-others = esto es una base de datos, pero no un libro de registro
not-a-ledger = esto no es un libro de registro
no-ledger-here = aquí no hay libro de registro
other-format = el libro tiene el formato { $found }; este headsweep lee el formato { $reads }
object-amiss = { $name } de la propia base de datos { $how ->
    [missing] falta o está alterado
   *[foreign] no es parte de un libro de registro
 }
pages-but-no-tables = el archivo está dañado (tiene páginas, pero ninguna tabla)
log-holds-rows = el archivo está vacío o ha desaparecido, pero { $log } aún contiene filas
begun-ledger-gone = el archivo está vacío o ha desaparecido, pero en esta carpeta se empezó el libro { $known }; devuélvalo desde una copia, o use otra carpeta
other-ledger-begun = este es el libro { $found }, pero en esta carpeta se empezó el libro { $known }; devuelva ese, o use otra carpeta
left-as-it-is = { $fault }; el archivo se dejó como está
not-durable = se encontró el modo de diario { $mode }, synchronous { $synchronous }; se admite: wal, { $full } (¿admite este sistema de archivos memoria compartida y bloqueos?)
sqlite-too-old = SQLite { $found } puede perder filas confirmadas; se admite: { $oldest } o más nuevo (actualice el paquete apsw)
not-open-for-writing = no se puede abrir para escribir
folder-in-use = otro headsweep tiene abierta esta carpeta de datos; se admite: uno cada vez
stop-the-service-first = { $why }. Pare antes el servicio y luego compruebe el comparador.
folder-exists = ya existe; se admite: una carpeta nueva
folder-not-empty = no está vacía; se admite: una carpeta nueva, o una vacía
ledger-is-here = aquí ya hay un libro de registro; se admite: una carpeta nueva, o una vacía
nothing-is-here = aquí no hay nada; se admite: la carpeta de una copia, o el archivo de una exportación
cannot-be-read = no se puede leer
no-line-of-an-export = la línea { $line } no es de una exportación
folder-not-written = no se puede escribir
copy-not-sound = la copia no está íntegra: { $why }
nobody-has-the-id = nadie tiene el id { $id }
none-altered = { $rows } filas, ninguna alterada; cabeza { $head }
ledger-is-sound = el libro está íntegro: no hay nada desde donde continuar
row-of-release = fila { $row } del libro: se encontró { $type } de la versión { $found }, que escribió una edición { $age ->
    [older] anterior
   *[newer] posterior
 }; se admite: versión { $allowed }
row-unknown = fila { $row } del libro: se encontró { $type }; se admite: { $known }
row-not-open = fila { $row } del libro: se encontró { $type } para la auditoría { $audit }, que no está abierta en { $machine }
ledger-has-no-rows = el libro no tiene filas, ni siquiera la primera
row-cannot-be-read = la fila { $seq } no se puede leer
row-is-unreadable = la fila { $seq } no se puede leer: { $why }
row-holds-no-event = la fila { $seq } está alterada: no contiene ningún evento
row-is-missing = falta la fila { $seq }
row-was-slipped-in = la fila { $seq } se coló antes de la fila { $want }
row-is-altered = la fila { $seq } está alterada: su hash no se sigue de lo almacenado
row-out-of-place = la fila { $seq } está fuera de lugar: se escribió como fila { $was }
row-of-another-ledger = la fila { $seq } es de otro libro, { $ledger }
row-and-why = fila { $seq }: { $why }
row-misnames-evidence = fila { $seq }: se encontró { $found }; se admite: un SHA-256 de 64 dígitos hexadecimales en minúsculas
other-hash-noted = la fila { $seq } tiene el hash { $found }, pero se anotó { $noted }
later-row-noted = el libro acaba en la fila { $seq }, pero se anotó la fila { $noted }
row-behind-evidence = la fila { $seq } está detrás de las evidencias
noted-in-file = { $say }, en { $file }
evidence-not-there = la evidencia { $digest } no está en el libro
evidence-is-damaged = la evidencia { $digest } está dañada
evidence-let-go = la evidencia { $digest } se eliminó, como dice la fila { $row }
let-go-by-none = fila { $seq }: { $why }; pero esa fila no dice tal cosa
no-date-to-let-go-by = ningún servidor de hora ha puesto en hora el reloj de este equipo: no se sabe qué muestras son antiguas
let-go-meanwhile = entretanto se eliminaron evidencias, como dice la fila { $row }; exporte otra vez
let-go-otherwise = la fila { $seq } eliminó evidencias, pero no las que enumera el archivo: se encontró { $found }

## Anchors gathered from reports and exports

anchors-found = anclas de este libro: { $anchors }, en { $files } de { $looked } archivos mirados
anchors-contradict = { $n ->
    [one] 1 archivo contradice
   *[other] { $n } archivos contradicen
 } este libro: { $names }
anchors-of-others = { $n ->
    [one] 1 archivo nombra
   *[other] { $n } archivos nombran
 } solo otro libro: { $names }
anchors-unread = { $n ->
    [one] 1 archivo no se miró
   *[other] { $n } archivos no se miraron
 }: { $names }

## The page where a stranger checks an export

export-title = Comprobar una exportación
export-intro = Esta página averigua si una exportación de un registro de headsweep está como se escribió. No envía nada a ninguna parte, y funciona igual guardada y abierta desde un disco.
export-file = La exportación
export-file-why = Un archivo de líneas, tal como lo imprime headsweep ledger export. Elíjalo, o suéltelo aquí.
export-papers = Informes y otras exportaciones del mismo registro
export-papers-why = Si tiene alguno. Cada uno lleva el hash de una fila; el de una hoja de cálculo lo lee solo headsweep ledger verify.
export-noted = Hashes en papel
export-noted-why = Si tiene alguno: ROW:HASH, al menos 8 dígitos del hash.
export-noted-wrong = Se encontró { $found }; se admite: ROW:HASH, como 41:9f86d081884c7d65.
export-key = La clave pública del taller
export-key-why = Si le dieron una: 64 dígitos. Entonces cada auditoría firmada debe llevar su firma.
export-key-wrong = Se admite como clave: 64 dígitos (0-9, a-f).
export-start = Comprobar
export-progress = Cuánto se ha leído
export-reading = { $share } % leído, fila { $row }
export-none-chosen = Elija antes una exportación.
export-not-done = Sin comprobar
export-no-export = No es una exportación
export-no-export-say = { $file } no es lo que imprime headsweep ledger export.
export-sound = Íntegra
export-not-sound = No íntegra
export-first-bad = Primera fila mala
export-ledger = Libro
export-rows = Filas buenas
export-head = Hash de la última de ellas
export-evidence = Muestras
export-evidence-of = { $here } de { $named } piezas están aquí y como estaban; { $gone } se eliminaron a propósito
export-no-evidence = no en este archivo: sus filas nombran { $named } piezas
export-anchors = Hashes de otros sitios
export-no-anchors = ninguno de este libro: aquí nadie puede saber si se le cortó el final
export-anchors-of = { $ours } de este libro, de { $all } encontrados en { $files } archivos y en papel
export-signatures = Firmas con clave
export-shows = Qué demuestra esto
export-shows-chain = El hash de cada fila se hace de su texto y del hash anterior. Así que ninguna fila se alteró, se omitió ni se añadió, salvo que se escribieran de nuevo todas las posteriores.
export-shows-anchor = Un hash guardado en otro sitio demuestra que las filas hasta él son las de aquel día. Sin ninguno, nadie puede saber si se cortó el final o se escribió todo de nuevo.
export-shows-key = Una firma con la clave del taller demuestra que quien tiene la clave registró esa auditoría.
export-shows-not = Nada de ello demuestra que sea verdad lo que dice una fila. Esta página vale lo que valga el sitio de donde la tiene.

## The shop's key

attests-nothing = la fila { $seq } es una firma con clave, pero no dice de qué
attests-no-such-row = la fila { $seq } es la firma de una clave bajo la fila { $row }, pero ahí no hay ninguna auditoría firmada con ese hash
attested-by-other = fila { $seq }: la fila { $row } está firmada con otra clave, { $key }
attested-falsely = la fila { $seq } no es una firma de su clave bajo la fila { $row }
attested-by = auditorías firmadas: { $n } de { $of } firmadas con la clave { $key }
attested-by-none = auditorías firmadas: { $n } de { $of } sin firma de ninguna clave, la primera en la fila { $row }
key-is-there = { $file } ya existe; se admite: una clave, que nunca se sobrescribe
key-unread = { $file }: no se puede leer la clave del taller ({ $why })
key-open = { $file } lo pueden leer otros en este equipo; se admite: solo su dueño (chmod 600)
key-made = Hecha: { $file }. Firma cada auditoría desde el próximo arranque del servicio, también las firmadas antes. Nada la copia: ni la copia de seguridad ni la exportación.
key-on-paper = Para guardar en papel, lejos de aquí: headsweep-key { $key } ({ $short })

## A data folder that cannot be used: short enough for the wall

no-record = { $because ->
    [full] El disco del registro está lleno
    [closed] No se puede escribir en el registro
    [gone] El registro ha desaparecido
    [foreign] Este no es el registro de este taller
    [memory] El registro se perdería con la corriente
    [damaged] El registro está dañado
    [people] No se sabe quién puede trabajar aquí
   *[other] No se puede abrir el registro
 }
no-record-do = { $because ->
    [full] Haga sitio en el disco de la Pi: sigue por sí solo.
    [closed] El disco de la Pi no admite escritura: hágalo revisar.
    [gone] Devuélvalo adonde estaba, o enchufe su disco: sigue por sí solo.
    [foreign] Vuelva a poner el correcto. No se tocó nada.
    [memory] Su carpeta está en la memoria de la Pi: téngala en un disco.
    [damaged] Se dejó como está. Devuelva una copia, o haga empezar uno nuevo.
    [people] El registro se deja como está. Instalación dice qué hacer.
   *[other] Instalación dice más.
 }
no-record-why = { $what }: { $why }
no-record-look = Aquí no se sabe qué está flojo, ni qué hay en el husillo: mire antes de dar corriente.
no-stick-there = está en la memoria, y una copia ahí se pierde con la corriente: ¿está montado su disco?
data-in-memory = la carpeta está en la memoria ({ $kind }) y se pierde con la corriente; tenga el registro en un disco, o permítalo con --data-in-memory

## The doctor: what it looked at, what it found, what to do

doctor-about = { $it ->
    [backup] Copia de seguridad
    [captures] Comparadores aprendidos
    [card] Tarjeta
    [clock] Reloj
    [config] Archivos del taller
    [disk] Disco
    [gauges] Comparadores
    [groups] Grupos
    [ledger] Registro
    [ports] Puertos
    [screens] Pantallas
    [service] Servicio
    [supply] Alimentación
    [temperature] Temperatura
    [units] Unidades
    [versions] Versiones
    [watchdog] Vigilante
   *[other] { $it }
 }
doctor-fine = bien
doctor-look-here = MIRE AQUÍ
doctor-no-end = no acabó en { $seconds } s
doctor-broke-off = este examen se interrumpió: { $error }
doctor-look-again = Ejecute otra vez headsweep doctor. Si lo repite, mire el disco y su cable.
doctor-not-allowed = este usuario no puede leer { $file }
doctor-ask-as-root = Ejecútelo como root: sudo headsweep doctor.
doctor-no-backup = el registro nunca se copió a otro sitio
doctor-nothing-to-copy = aún no hay registro que copiar
doctor-backup = copiado a { $to } { $days ->
    [0] hoy
    [one] ayer
   *[other] hace { $days } días
 }, { $new ->
    [0] nada nuevo desde entonces
    [one] una fila nueva desde entonces
   *[other] { $new } filas nuevas desde entonces
 }
doctor-make-backup = Enchufe una unidad cuyo sistema de archivos se llame HEADSWEEP, o cópielo a mano: headsweep ledger backup --data { $data } --to FOLDER.
doctor-card-silent = { $card } no dice cuán gastada está
doctor-card = { $card } ha gastado hasta { $used } % de su vida
doctor-change-card = Haga ahora una copia de seguridad y pase el sistema a otra tarjeta.
doctor-own-clock = un reloj propio mantiene la hora sin corriente
doctor-no-own-clock = sin corriente no mantiene la hora, y la pide a un servidor tras cada arranque
doctor-clock-set = puesto en hora por un servidor de hora; { $own }
doctor-set-clock = Hágalo poner en hora: sudo timedatectl set-ntp true.
doctor-reach-server = Conéctelo a una red donde alcance un servidor de hora, o póngale un reloj con pila.
doctor-files = { $folder } tiene { $machines ->
    [one] una máquina
   *[other] { $machines } máquinas
 } y { $gauges ->
    [one] un comparador
   *[other] { $gauges } comparadores
 } en uso
doctor-no-folder = no existe la carpeta { $folder }
doctor-name-config = Indique la carpeta con shop.toml mediante --config.
doctor-empty-shop = { $folder } aún no contiene ningún taller
doctor-set-up = En un teléfono, abra la primera página de headsweep y pulse "{ set-up-go }".
doctor-mend-file = Corrija ese archivo; el ejemplo que está al lado explica cada clave. Luego pulse "{ set-up-anew }" en la página de configuración, o: sudo systemctl restart headsweep.
doctor-disk-errors = { $disk }: su sistema de archivos ha encontrado { $errors ->
    [one] un error
   *[other] { $errors } errores
 }
doctor-check-disk = Haga ahora una copia de seguridad; luego haga revisar el disco en un arranque (fsck), o cámbielo.
doctor-room = { $gb } GB libres para { $folder }
doctor-make-room = Haga sitio, o ponga un disco mayor; headsweep ledger let-go libera lo que ocupan las muestras.
doctor-keep-on-disk = Tenga { $folder } en un disco que dure; hardware/README.md dice cómo, donde el del sistema es de solo lectura.
doctor-gauges-unknown = no se preguntó, porque el servicio no funciona, o este usuario no puede preguntarle
doctor-ask-again = Atienda antes al servicio y luego ejecute otra vez headsweep doctor.
doctor-gauge-heard = se oye a { $gauge }
doctor-gauge-not-heard = no se oye a { $gauge } ({ $code })
doctor-mend-gauge = Atienda a su cable y alimentación; la página de instalación muestra lo que llega de { $gauge }.
doctor-compare-face = Compare el visor del comparador con el número de la página antes de medir nada con { $gauge }. Si difieren, apréndalo de nuevo, o ponga su archivo como estaba.
doctor-no-capture = Ponga { $file } otra vez, de una copia. El comparador funciona sin él; solo no puede hacerse esta revisión.
doctor-no-gauge = no se lee ningún comparador: ninguna máquina nombra uno
doctor-name-gauge = Conecte uno en "{ set-up-go }", o con headsweep gauge learn; luego nómbrelo en el archivo de una máquina.
doctor-user-unknown = no se sabe con qué usuario funciona el servicio
doctor-no-group = { $user } no está en el grupo { $group }, y no puede usar { $device }
doctor-add-group = sudo usermod -a -G { $group } { $user }, luego sudo systemctl restart headsweep.
doctor-groups = { $user } puede usar puertos y pines ({ $groups })
doctor-name-data = Indique la carpeta del registro mediante --data; el servicio la crea al arrancar.
doctor-no-record = { $data } aún no contiene registro
doctor-rows-whole = { $rows ->
    [one] una fila, como se escribió,
   *[other] las { $rows } filas, como se escribieron,
 } desde { DAY($since) }
doctor-rows-seen = { $seen } de { $rows } filas desde { DAY($since) } miradas, como se escribieron; todas llevan unos { $minutes } min (headsweep ledger verify)
doctor-verify = headsweep ledger verify --data { $data } dice más; luego restaure una copia, o continúe.
doctor-sealed = sellado hasta la fila { $row }: un arranque lee lo que vino después
doctor-no-seal = ningún sello que cuadre: el próximo arranque tarda más, porque lee cada fila
doctor-no-port = no hay ningún puerto serie enchufado
doctor-port = { $port } es el puerto de { $gauge }
doctor-port-gone = { $port } de { $gauges } no está
doctor-plug-in = Enchufe su cable; headsweep gauge list nombra los puertos que hay.
doctor-port-held = { $port } está abierto en { $name } (proceso { $pid })
doctor-end-other = Termínelo, y cuide de que no arranque otra vez: se lleva los bytes del comparador. sudo kill { $pid }
doctor-port-twice = { $port } lo nombran los archivos de { $gauges }, que no van juntos en un puerto
doctor-own-port = Dé al archivo de cada comparador un puerto propio, o el mismo [line] y tramas que digan de quién son.
doctor-port-unnamed = { $port } no lo nombra el archivo de ningún comparador
doctor-name-socket = Nombre cada uno por su toma: un nombre bajo /dev/serial/by-path en el archivo del comparador.
doctor-screens = { $n ->
    [0] ninguna está abierta
    [one] una está abierta
   *[other] { $n } están abiertas
 }, { $most } como máximo
doctor-close-screens = Cierre páginas que nadie mira; otra no encuentra sitio.
doctor-wall-blank = el navegador de la pared funciona y no tiene ninguna página abierta
doctor-restart-wall = sudo systemctl restart { $unit }
doctor-service-runs = funciona, da vueltas y registra
doctor-service-not-running = no funciona
doctor-start-service = sudo systemctl start headsweep; qué se lo impide está en sudo journalctl -u headsweep.
doctor-service-silent = { $name } (proceso { $pid }) tiene el registro, y no se le puede preguntar
doctor-thread-still = estas partes están paradas: { $threads }
doctor-thread-dropped = a estas partes ya no se les dice nada del registro: { $threads }
doctor-restart-service = sudo systemctl restart headsweep, cuando no haya nadie en la máquina.
doctor-not-recorded = no se registra nada para { $machine }: { $say }
doctor-see-record = Vea lo que aquí se dice de disco y registro.
doctor-supply-unknown = este equipo no puede decirlo
doctor-supply-well = mantiene su tensión, y la mantuvo desde el arranque
doctor-supply-low = su tensión es ahora demasiado baja
doctor-supply-was-low = su tensión fue una vez demasiado baja desde el arranque
doctor-mend-supply = Use la fuente hecha para este equipo y un cable corto y grueso, y quite cargas de su USB.
doctor-no-thermometer = este equipo no puede decirlo
doctor-warm = { $degrees } °C; es demasiado a partir de { $limit } °C
doctor-cool = Dele aire al equipo: despeje sus rendijas, o apártelo del accionamiento y del sol.
doctor-not-installed = nada arranca headsweep por sí solo tras un corte de corriente
doctor-install = Desde un clon del proyecto: sudo sh hardware/install.
doctor-unit = { $unit } está en marcha{ $again ->
    [0] {""}
    [one] , arrancado de nuevo una vez
   *[other] , arrancado de nuevo { $again } veces
 }
doctor-unit-failed = { $unit } falló
doctor-read-log = sudo journalctl -u { $unit } -n 50 dice por qué.
doctor-unit-disabled = { $unit } no arranca por sí solo
doctor-enable-unit = sudo systemctl enable --now { $unit }
doctor-unit-idle = { $unit } no funciona
doctor-start-unit = sudo systemctl start { $unit }
doctor-versions = headsweep { $headsweep }, Python { $python }, SQLite { $sqlite }, Linux { $kernel }, { $system }
doctor-packages = { $packages }
doctor-packages-missing = faltan estos paquetes: { $packages }
doctor-install-anew = Instálelo de nuevo: sudo sh hardware/install.
doctor-unwatched = nadie arranca de nuevo el servicio si se cuelga
doctor-not-by-unit = el servicio se arrancó a mano, y nadie lo arranca de nuevo si se cuelga
doctor-start-by-unit = Termínelo y luego: sudo systemctl start headsweep.
doctor-watched = el servicio se arranca de nuevo cuando calla { $within }
doctor-no-hardware-watchdog = este equipo no tiene uno propio
doctor-hardware-watchdog-off = este equipo tiene uno propio, y está desactivado
doctor-set-hardware-watchdog = Ponga RuntimeWatchdogSec=15s en /etc/systemd/system.conf, y arranque de nuevo el equipo.
doctor-hardware-watchdog = el equipo arranca de nuevo cuando se cuelga { $within }

## How long the disk lasts

room-lasts = { $free }, basta para { $days ->
    [one] { $days } día
   *[other] { $days } días
 } al ritmo de las últimas semanas
room-soon-gone = El disco se llena en unos { $days ->
    [one] { $days } día
   *[other] { $days } días
 }, al ritmo de las últimas semanas: haga sitio.

## The Pi's clock

clock-unsure = Ningún servidor de hora ha puesto en hora el reloj de la Pi: la fecha de hoy, { DAY($today) }, puede estar mal.
clock-behind = El reloj de la Pi está mal: dice { DAY($today) }, y el registro llega hasta { DAY($day) }.
clock-was-set = El reloj de la Pi se { $way ->
    [back] atrasó
   *[on] adelantó
 } { $by }: lo fechado antes puede tener mal la fecha.
so-long = { $n } { $of ->
    [days] días
    [hours] horas
    [minutes] minutos
   *[seconds] s
 }
due-by-unsure-clock = Ningún servidor de hora ha puesto el reloj en hora: la fecha de hoy puede estar mal.

## After a run that was cut off: what happened, and what the doctor found since

cut-off = { $how ->
    [power] La Pi se apagó
    [killed] headsweep se interrumpió
   *[unclear] La Pi o headsweep se interrumpió
 }{ $at ->
    [unknown] {""}
   *[other] {" "}poco después de { $at }
 }.
cut-off-looking = { $what } En marcha otra vez; se está revisando.
cut-off-fine = { $what } En marcha otra vez, todo bien.
cut-off-look = { $what } En marcha otra vez. Mire: { $at }.
so-many-more = { $n } más
cut-off-read = Lo he leído
cut-off-gone = Se quita de todas las pantallas.
aria-cut-off = Desde el último arranque

## Recording, and what the service itself says of a press

no-answer = EL REGISTRO NO RESPONDE: lo que pulse ahora quizá no se guarde.
screens-stand-still = LAS PANTALLAS ESTÁN PARADAS: no siguen. Reinicie headsweep.
recording-failed = SIN REGISTRAR: { $why }
recording-fails = SIN REGISTRAR desde ahora: { $why }
disk-nearly-full = El disco está casi lleno: { $why }
record-under-check = El registro se comprueba desde su primera fila: { $share } % hecho.
check-broke-off = su comprobación se interrumpió ({ $error })
sealed-otherwise = { $path }: { $seal } dice algo distinto de lo que dan las filas 1 a { $n }; pare el servicio y arránquelo otra vez: entonces lee cada fila
stopping = El servicio se está parando.
service-silent = El servicio no responde; no consta que se haya registrado nada.
was-not-recorded = Sin registrar: { $why }
was-not-known = No se sabe si se registró: { $why }
others-first = Sin registrar: antes hay que registrar lo que el comparador hizo entretanto.
not-for-people = '{ $kind }' lo nota el servicio mismo.
changed-meanwhile = Algo cambió desde que se dibujó esa pantalla: mire otra vez.
signed-after-that = { $wait } Después se puede firmar.
went-to-zero-meanwhile = Fue a cero mientras se leía: mire otra vez.
zeroed-meanwhile = Puesto a cero mientras se leía: mire otra vez.
cannot-be-written = Esto no se puede anotar: { $error }
id-used-before = El id de orden { $id } ya se usó, para otra cosa.
reading-under-way = Se está tomando una lectura: no mueva nada.
of-second-gauge = El segundo comparador: { $why }
no-first-button = Ahora no hay primer botón: responda en la consola.
done-on-the-console = { $button }: eso se hace en la consola.
nothing-to-undo = No hay nada que retirar.
no-reading-wanted = Ahora no se quiere lectura { $place }.
press-key-in-all = Pulse la tecla del comparador, { $presses } veces en total…

## The practice mill's record

practice-full = El registro de práctica está lleno. Pare la demo y arránquela otra vez: entonces empieza de nuevo.

## The practice mill and its panel

panel-place = { CAP(PLACE($place)) }
panel-set = Apoyar el palpador
panel-free = Levantar el palpador
panel-ring = Girar el anillo media vuelta
panel-wipe = Levantar el anillo, limpiarlo y ponerlo otra vez
panel-arm = Sujetar el brazo al revés
panel-push = Empujar el palpador
panel-flick = Dar un toquecito al brazo
panel-zero = Pulsar cero
panel-unit = Pulsar el botón de unidad
panel-spindle = Husillo a { $to }°, comparador { $at } mm bajo la nariz
panel-table = Mesa en X { $to } mm
panel-jaw = Palpador en la boca de la mordaza, a { $to } mm de su extremo izquierdo
panel-tap = Golpear la mordaza { $way ->
    [away] alejándola del
   *[toward] acercándola al
 } comparador, { $much ->
    [a-lot] mucho
   *[a-touch] un poco
 }
panel-loosen = Aflojar los tornillos de { $axis ->
    [side] ladeo
   *[nod] cabeceo
 }
panel-tighten = Apretar los tornillos de { $axis ->
    [side] ladeo
   *[nod] cabeceo
 }
panel-bolt = Apretar el tornillo { $bolt } de { $axis ->
    [side] ladeo
   *[nod] cabeceo
 }
panel-turn = Girar el mando de { $axis ->
    [side] ladeo
   *[nod] cabeceo
 }: baja { PLACE($lower) }, { $much ->
    [a-lot] mucho
   *[a-touch] un poco
 }
panel-bump = Golpearlo sin querer
panel-reset = Descuadrarlo
panel-unplug = Quitar el cable
panel-replug = Volver a poner el cable
panel-fault = { $name ->
    [junk] Basura antes de cada trama
    [truncated] Cortar algunas tramas
    [garbage] Nada más que basura
    [stuck] Quedarse en este número
    [silent] Callarse
   *[none] Reparar el hilo
 }
panel-group = { $group ->
    [nod] Cabeceo
    [side] Ladeo
    [gauge] Comparador y cabezal
    [stations] Otras comprobaciones
   *[trouble] Problemas para practicar
 }
panel-loose = { $axis ->
    [side] ladeo
   *[nod] cabeceo
 }
panel-bolts = { $n ->
    [0] Todos los tornillos están apretados.
   *[other] Flojos: { $loose }.
 }
panel-says = { $where ->
    [swinging] El comparador está girando
    [bar] El comparador está junto a una barra en el husillo
    [edge] El comparador está en un canto sobre la mesa
    [jaw] El comparador está en la boca de la mordaza
   *[place] El comparador está en { PLACE($where) }
 }, { $contact ->
    [free] palpador en el aire
   *[set] palpador en la superficie
 }. { $bolts }{ $cable ->
    [out] {" "}El cable está quitado.
   *[in] {""}
 }{ $fault ->
    [junk] {" "}Problema en el hilo: basura añadida.
    [truncated] {" "}Problema en el hilo: tramas cortadas.
    [garbage] {" "}Problema en el hilo: solo basura.
    [stuck] {" "}Problema en el hilo: número atascado.
    [silent] {" "}Problema en el hilo: silencio.
   *[none] {""}
 }
lessons-title = Lecciones
lessons-is = ocho lecciones, y una nota por lo bien hecho
lessons-page = { $machine }: lecciones
lessons-how = Cada una empieza con la fresadora como debe estar para ella. Haga lo que dice la consola; lo que usted hace se cuenta por lo que la fresadora hizo de verdad. Solo práctica: ningún trabajo real tiene nota.
lesson-learner = ¿De quién es este intento? (no hace falta decirlo)
lesson-begin = Empezar
lesson-over = Al empezar se abandona la auditoría que esté abierta.
lesson-next = Se empezó otra lección.
lesson-go = Ir al banco
lesson-drawn = Dibujado { $farther } veces más inclinado: lo que está en tolerancia no se vería aquí. Lo dice el comparador.
lesson-at-hand = Lo que hacen ahora las manos
lesson-picture = El cabezal como lo ve quien está delante, su husillo, y el comparador sobre el anillo
class-title = Clase
class-says = Para quien enseña. La verdad queda tapada hasta que usted la muestra.
class-set = Poner un error que usted conoce
class-side = Extremo derecho bajo, mm en el barrido (menos: izquierdo)
class-nod = Frente bajo, mm en el barrido (menos: fondo)
class-for-next = Dejarla lista para el siguiente
class-none = Nadie ha empezado aún.
class-show-all = Mostrar la verdad de todos
class-learner = Quién aprende
class-score = Bien hecho
truth-show = Mostrar la verdad
truth-title = La verdad
lost-title = Puntos perdidos
lost-none = Ni un punto perdido.
lost-points = { $points ->
    [one] 1 punto
   *[other] { $points } puntos
 }
lost-row = fila { $row }
run-of = { $learner ->
    [nobody] Intento { $nth }
   *[other] { $learner }
 }
lesson = { $lesson ->
    [two-spots] Comprobación de dos puntos
    [worse-first] Primero el eje peor
    [tightening] Apretar tira
    [way-round] El sentido de la vuelta
    [zeroed] Alguien lo puso a cero
    [off-scale] Fuera de escala
    [chip] Una viruta bajo el anillo
    [stiff] Un cabezal duro
   *[known] Un error conocido
 }
lesson-aim = { $lesson ->
    [two-spots] Tras un giro lea los dos extremos del eje, y solo entonces apriete sus tornillos.
    [worse-first] Gire primero el eje que está más fuera: el otro lo sigue un poco.
    [tightening] Averigüe qué hace el apriete en este cabezal, y que la próxima parada cuente con ello.
    [way-round] Dé la vuelta según la consola nombra los puntos, esté donde esté el brazo al llegar.
    [zeroed] Si el número salta y nadie movió el cabezal, diga qué pasó, y lea otra vez.
    [off-scale] Donde el comparador no llega, dígalo. Acerque el cabezal a mano antes de leer.
    [chip] Si las lecturas no casan, levante el anillo y límpielo antes de creerlas.
    [stiff] La holgura es grande: llegue despacio a la parada, siempre por el mismo lado.
   *[known] Escuadre un cabezal que otra persona ha puesto.
 }
lesson-state = { $state ->
    [open] en curso
   *[given-up] abandonada
 }
workmanship = Bien hecho: { $score } de { $whole }
truth-axis = { $axis ->
    [nod] Cabeceo
   *[side] Ladeo
 }: al principio { $began } mm { $began_low ->
    [right] con el extremo derecho bajo
    [left] con el extremo izquierdo bajo
    [back] con el fondo bajo
   *[front] con el frente bajo
 }, al firmar { $left } mm { $left_low ->
    [right] con el extremo derecho bajo
    [left] con el extremo izquierdo bajo
    [back] con el fondo bajo
   *[front] con el frente bajo
 }, en { $over } mm. Se permiten { $limit } mm.
lost = { $why ->
    [move] Movimiento { $nth }, donde habrían bastado { $fewest }
    [out] Firmado con { $axis ->
        [nod] el cabeceo
       *[side] el ladeo
     } de verdad fuera: { $times } veces lo permitido
    [spot] Leído como { PLACE($called) }, mientras el comparador { $stood ->
        [air] estaba en el aire
        [elsewhere] iba de camino
       *[other] estaba en { PLACE($stood) }
     }
    [refused] Una lectura rechazada
    [both-loose] Tornillos de los dos ejes flojos a la vez: nada sujetaba el cabezal
    [knocked] Golpe contra brazo y cabezal
    [swept-loose] Un barrido entero con tornillos flojos
    [not-tight] Se dijo que estaban apretados, y no lo estaban del todo: { $axis ->
        [nod] los tornillos del cabeceo
       *[side] los tornillos del ladeo
     }
    [not-loose] Se dijo que estaban flojos, y estaban apretados: { $axis ->
        [nod] los tornillos del cabeceo
       *[side] los tornillos del ladeo
     }
    [denied] Se negó una puesta a cero que sí se hizo
    [unread] Tornillos apretados antes de leer los dos extremos
    [lesser] Se giró primero { $axis ->
        [nod] el cabeceo
       *[side] el ladeo
     }, aunque el otro estaba claramente peor
    [on-chip] Girado por lecturas con una viruta bajo el anillo
    [to-and-fro] Un mando girado de acá para allá
   *[slow] { $times } veces lo que se suele tardar
 }
learner-not = learner: se encontró { $found }; se admite: hasta { $most } letras que puedan imprimirse
none-of-these = { $name }: se encontró { $found }; se admite: { $allowed }
no-number-within = { $name }: se encontró { $found }; se admite: un número de { $low } a { $high }

## Learning a gauge by its face

learn-leave-free = De momento deje el palpador libre y sin tocar. Mantenga las manos lejos de un husillo que pueda girar.
learn-silent = Nada llega por sí solo: se le preguntará.
learn-tried = Intento { $nth } de { $of }: { $line }  { $text }  (Intro: pasar al siguiente)
learn-no-answer = No responde a ninguna de las peticiones.
learn-press-key = Pulse la tecla del comparador una vez por segundo, más o menos, hasta que se le diga. Intro para empezar.
learn-press-once = Ahora pulse una vez la tecla del comparador, como para una lectura. Intro para empezar.
learn-understood = Se entiende con { $line }.
learn-face-free = El palpador está libre. ¿Qué muestra el visor del comparador, con su unidad, como -0.123 mm?
learn-face-pushed = Hunda bastante el palpador y manténgalo ahí, mejor sobre un bloque patrón. ¿Qué muestra el visor?
learn-face-minus = Ahora manténgalo donde el visor muestre el otro signo: un menos, o si no otro número. ¿Qué muestra? (Intro: no puede)
learn-face-elsewhere = Una vez más: manténgalo en cualquier otro punto. ¿Qué muestra el visor?
learn-face-again = Lo que llegó no contiene { $face }. Manténgalo quieto, mire otra vez: ¿qué muestra ahora el visor?
learn-no-number = "{ $typed }" no es un número con unidad. Escriba lo que muestra el visor, como -0.123 mm o 0.0485 in.
learn-hold = Manténgalo un momento más.
learn-hold-on = Manténgalo: { $nth } de { $of } ({ $line }).
learn-hold-press = Manténgalo ahí, y pulse la tecla del comparador una vez por segundo, más o menos, hasta que se le diga. Intro para empezar.
learn-work = Gracias. Ahora mueva el palpador despacio hacia dentro y hacia fuera hasta que se le diga: el número de abajo debería ir con el visor.
learn-tried-out = Se probó su archivo: { $good } tramas buenas, { $bad } malas. Ya puede soltar.
learn-travel = ¿Cuánto puede moverse el palpador, según sus papeles, como 12.7 mm? (Intro: no se sabe)
learn-speed = ¿Qué velocidad nombra su manual, como 9600? (Intro: no se sabe)
learn-no-answer-that = "{ $typed }" no responde a eso. { $asked }
learn-name = ¿Cómo se llama? (Intro: decirlo después, en el archivo)
learn-serial = ¿Qué número lleva en su caja? (Intro: después)
learn-kind = ¿Es de vástago (plunger) o de palanca (lever)? (Intro: plunger)
learn-resolution = ¿De cuánto en cuánto avanza su última cifra, según sus papeles, como 0.0005 mm o 0.00005 in? (Intro: de uno en uno)
learn-max-error = ¿Cuánto puede errar en todo su recorrido, según sus papeles, como 0.004 mm? (Intro: después)
learn-due = ¿Hasta cuándo es válida su calibración, como año-mes-día? (Intro: después)
learn-file = { $text }
learn-not-written = No se escribió en un archivo: diga dónde con -o.
learn-written = Escrito en { $file }; los bytes de los que se aprendió están al lado, en { $kept }. Revíselo y luego escuche con él.
learn-missing = Aún falta en él: { $keys }. Nada funciona con él antes de ponerlo.
learn-nobody = Nadie escribe lo que muestra el visor: no se escribe nada.
learn-nothing-came = No llegó nada, a ninguna velocidad usual: ¿está encendido el comparador, está puesto su cable, y qué dice su manual de las peticiones (--request)?
learn-not-pushed = El visor apenas cambió entre libre y hundido: no se escribe nada. Aprenda otra vez, y hunda el palpador un milímetro más o menos.
learn-no-fit = No se encontró ningún modo en que lo recibido diga lo que mostraba el visor. No se escribe nada: ¿se escribió cada número con el palpador quieto, y tal como estaba? Si no, describa las tramas a mano, como en example-fields.toml, con su manual.
learn-unasked = Al probarlo con su archivo, envió { $n } tramas que no se pidieron: emite por sí solo, o responde más de una vez. No se escribe nada.
learn-file-reads-badly = Al probarlo con su archivo, la última vez llegaron { $good } tramas buenas y { $bad } malas: el archivo no lo lee bien. No se escribe nada; aprenda otra vez.
learn-step = Paso { $step } de { $of }: { $step ->
    [1] lo que dice su manual
    [2] escuchar
    [3] su visor, con el palpador libre
    [4] su visor, con el palpador metido
   *[5] lo que dicen sus papeles
 }
learn-over = Se terminó de aprender
learn-none-fits = Aprender un comparador que ninguno de estos lee
learn-says = Elija arriba su puerto. headsweep escucha allí, usted escribe lo que muestra el visor del propio comparador, y su archivo se escribe cuando ambos dicen lo mismo. Ponga su cero un poco dentro del recorrido, para que al empujar pase por él.
learn-sends = Cómo envía su número
learn-sends-itself = por sí mismo, o nadie lo sabe
learn-sends-key = al pulsar su tecla
learn-sends-asked = cuando se le pide
learn-request = Con qué se le pide según su manual, como R\r
learn-begin = Aprender este comparador
learn-believed = Por lo que llega, su visor muestra
learn-send = Eso es
learn-without = Seguir sin ello
learn-ready = Empezar
learn-sign = + / −
learn-skip = Saltar este paso
learn-leave = Dejarlo
learn-under-way = Ya se está aprendiendo allí un comparador. Siga con él, o déjelo, antes.
learn-request-missing = La petición va con un comparador al que se le pide, y con ningún otro.
learn-long-answer = { $found } caracteres; se permiten { $most } como mucho.
learn-left = Dejado. No se escribe nada, y el puerto queda libre.
learn-failed = No se escribe nada: el aprendizaje acabó por un error del programa, que está en su diario.
learn-keep-again = El disco o la carpeta no admite su archivo ({ $why }). Lo aprendido se guarda aquí mientras tanto: haga sitio y pruebe otra vez.
learn-kept = El archivo { $file } está escrito; al lado está aquello de lo que se aprendió.
learn-kept-lacks = El archivo { $file } está escrito; al lado está aquello de lo que se aprendió. Aún le falta { $keys }. Ninguna máquina puede usar el comparador antes de ponerlo, aquí bajo "{ set-up-change }" o en el archivo; todo lo demás sigue.
capture-differs = { $gauge }: de lo que se aprendió, el número { $nth } era { $was } y ahora se lee { $now }: compárelo con su visor antes de usarlo.
capture-counts = { $gauge }: de lo que se aprendió, se leyeron { $was } números y ahora { $now }: compárelo con su visor antes de usarlo.
capture-same = { $gauge }: { $n } números como se aprendieron.

## Setting up a shop from a phone

set-up-title = Configurar
set-up-is = Configurar: añadir un comparador o una máquina, cambiar una tolerancia o un puerto
set-up-says = Basta con un comparador y una máquina. Lo que se guarda aquí es un archivo comentado que cualquier editor puede cambiar.
set-up-missing-here = Qué falta:
set-up-lacks = { $what ->
    [shop] el propio archivo del taller, shop.toml
    [gauge] un comparador
    [machine] una máquina
   *[amiss] algunos archivos tienen un error: Instalación dice cuáles
 }
set-up-go = Configurar el taller
set-up-on-phone = En un teléfono de la misma red, abra
set-up-then-code = Emparéjelo con el código que aparecerá aquí, y pulse en él "Configurar el taller".
set-up-only-here = Solo este equipo alcanza estas páginas. Para que pueda un teléfono, arranque headsweep con --listen 0.0.0.0:8642.
set-up-no-network = Este equipo no está en ninguna red por la que un teléfono pueda alcanzarlo.
set-up-who = ¿Quién configura?
set-up-who-first = Aún no puede configurar nadie. Quien ponga aquí nombre y PIN podrá desde ahora, y podrá firmar.
set-up-who-then = Una persona que puede configurar, con su PIN.
set-up-shop-name = Cómo se llama el taller
set-up-your-name = Su nombre
set-up-new-pin = Un PIN propio: de 4 a 12 dígitos, visible mientras lo escribe
set-up-next = Seguir
set-up-gauge = Un comparador
set-up-port = El puerto donde está su cable
set-up-look = Mirar otra vez los puertos
set-up-no-ports = No hay ningún puerto serie enchufado: ¿está puesto el cable del adaptador?
set-up-own-port = los pines propios de la Pi
set-up-talks = habla ahora
set-up-quiet = callado, o no es de estos
set-up-in-use = en uso: { $gauge }
set-up-hearing = Escuchando…
set-up-like = Sus números llegan como los de
set-up-shape = { $shape ->
    [text] texto, como "+1.2345 in"
    [bcd] dígitos decimales, medio byte cada uno
    [bits] una cuenta en binario
   *[other] { $shape }
 } ({ $line })
set-up-face = Lo que llega ahora
set-up-face-asks = ¿Muestra esto el propio visor del comparador?
set-up-push-asks = Empuje el palpador: ¿crece el número?
set-up-yes-grows = Crece
set-up-no-falls = Baja
set-up-name = Nombre
set-up-number = Número en su caja
set-up-gauge-called = Comparador
set-up-machine-called = Fresadora
set-up-papers = Lo que dicen sus papeles
set-up-papers-says = Lo que se deja vacío falta en su archivo: ninguna máquina puede usar el comparador antes de ponerlo, aquí o allí. Todo lo demás sigue.
set-up-paper = { $what ->
    [name] Cómo se llama
    [serial_number] El número de su carcasa
    [travel] Cuánto puede moverse el palpador, como 12.7 mm
    [max_error] Lo más que puede errar en todo ello, como 0.004 mm
   *[calibration_due] El último día en que vale su calibración
 }
set-up-lacks-papers = { $gauge }: a su archivo aún le falta lo que sigue. Ninguna máquina puede usar este comparador antes de ponerlo; todo lo demás sigue.
set-up-put-in = Ponerlo
set-up-kind = Tipo
set-up-plunger = de vástago: el palpador se desliza a lo largo del comparador
set-up-lever = de palanca: el palpador bascula
set-up-resolution = Un paso de su último dígito
set-up-save-gauge = El visor lo muestra: guardar este comparador
set-up-saved = Guardado: { $file }
set-up-machine = Una máquina
set-up-of-gauge = Su comparador
set-up-unit = Longitudes en
set-up-tolerance = Qué escuadra basta
set-up-square = { $name }: { $limit } en 300 mm
set-up-seat = Qué se barre
set-up-side-moved = El ladeo se mueve con
set-up-nod-moved = El cabeceo se mueve con
set-up-moved = { $by ->
    [worm] un sinfín
    [rack] una cremallera
    [hand] la mano, empujando o golpeando
   *[none] nada: está fijo
 }
set-up-z = El palpador baja con
set-up-height = { $z ->
    [knee] la ménsula, que sube
    [quill] la caña, que baja
   *[powered] motor: cabezal o mesa motorizados
 }
set-up-tape = Con cinta métrica; lo que quede vacío lo enseñan los primeros movimientos
set-up-tape-first = Sin corriente y con candado antes de meter la mano, según el manual de la máquina y las normas de su taller.
set-up-surface = Lo que se barre: las alturas son sobre ello
set-up-surface-says = El palpador se apoya en lo que se barre, que está sobre la mesa.
set-up-radius = Del eje del husillo al palpador
set-up-radius-says = Visto desde arriba: la cinta va del eje del husillo hasta el palpador.
set-up-side-pivot = Ladeo: del eje al pivote, hacia la izquierda
set-up-side-pivot-says = Visto desde el frente: la cinta va del eje del husillo al pivote, a nivel. Casi siempre 0.
set-up-side-height = Ladeo: la altura del pivote
set-up-side-height-says = Visto desde el frente: la cinta se apoya en lo que se barre y sube hasta el pivote.
set-up-nod-pivot = Cabeceo: del eje hacia atrás al pivote
set-up-nod-pivot-says = Visto desde la derecha: la cinta va del eje del husillo hacia atrás al pivote, a nivel.
set-up-nod-height = Cabeceo: la altura del pivote
set-up-nod-height-says = Visto desde la derecha: la cinta se apoya en lo que se barre y sube hasta el pivote.
set-up-at-spindle = eje del husillo
set-up-at-pivot = pivote
set-up-at-swept = lo que se barre
# What the file written so calls things, until the shop puts in words of its own.
surface-named = { $seat ->
    [ring] anillo rectificado sobre la mesa
    [plate] placa rectificada sobre la mesa
    [block] un bloque, movido de punto en punto
   *[table] la mesa
 }
bolts-named = { $axis ->
    [side] los tornillos de ladeo
   *[nod] los tornillos de cabeceo
 }
adjuster-named = { $moved ->
    [worm] el sinfín
    [rack] la cremallera
    [hand] el cabezal
   *[none] la junta fija
 } de { $axis ->
    [side] ladeo
   *[nod] cabeceo
 }{ $moved ->
    [hand] , empujado a mano
   *[other] {""}
 }
set-up-save-machine = Guardar esta máquina y empezar
set-up-change = Cambiar lo que hay
set-up-change-tolerance = Cambiar la tolerancia
set-up-change-port = Cambiar el puerto
set-up-anew = Leer de nuevo los archivos
set-up-begins-anew = Los archivos se leen de nuevo.
set-up-audit-open = Hay una auditoría abierta en { $machines }. Lo guardado se conserva, y se lee cuando esa auditoría esté firmada o abandonada: pulse entonces "{ set-up-anew }".
set-up-mend = Cómo corregir uno: ábralo en la Pi con un editor, como sudo nano y su ruta; corrija lo que figura abajo; guárdelo; luego pulse "{ set-up-anew }" en la página de configuración.
set-up-not-sound = { $file } no se guardó: lo que diría no puede ser.
set-up-changed = Sin guardar: entretanto cambiaron los archivos del taller. Cargue de nuevo esta página y mire.
set-up-disk = Sin guardar: el disco o la carpeta no lo admite ({ $why }). Lo que había está como estaba.
set-up-no-port = Aquí ya no hay puerto { $port }. Mire otra vez los puertos.
set-up-no-example = Aquí no hay ejemplo { $example }. Cargue esta página de nuevo.
set-up-port-held = { $port } ya se lee como { $gauge }.
set-up-listening = Otra pantalla escucha en este momento. Pulse otra vez.
set-up-silent = De él no llega nada.
set-up-no-number = { $n ->
    [one] Llega un byte
   *[other] Llegan { $n } bytes
 } de él, y ningún número por este modo.
set-up-no-file = No existe el archivo { $file }.
set-up-by-hand = { $file } dice { $key } a su propio modo. Cámbielo con un editor.
set-up-missing = { $what ->
    [name] Falta un nombre.
    [number] Falta el número en la caja del comparador.
    [resolution] Falta cuánto vale un paso del último dígito.
    [radius] Falta la longitud del eje del husillo al palpador.
   *[port] Falta un puerto.
 }
set-up-taken = Ya hay alguien que puede configurar. Cargue de nuevo esta página.
no-bench-here = Aquí no se puede comprobar ningún comparador en una página: es práctica, o un registro que no se puede usar.
no-set-up-here = Aquí no se configura nada: la práctica tiene sus propios archivos.

## Who may do what: pairing a screen, a PIN for signing

right-not-declared = Nadie puede hacer esto.
pair-first = Esta pantalla aún no puede hacerlo. Emparéjela: abra /pair en ella.
own-wall-only = Eso solo puede hacerlo la pared propia de la Pi.
not-from-our-page = Eso no vino de ninguna página de esta pantalla. Cargue de nuevo la página y pulse otra vez.
too-often = Demasiadas a la vez. Pulse otra vez dentro de { $seconds ->
    [one] un segundo
   *[other] { $seconds } segundos
 }.
ticket-spent = Esta dirección dejaba entrar una vez a la pared propia de la Pi, durante un minuto. Arranque otra vez `headsweep wall` en la Pi.
pair-title = Emparejar esta pantalla
pair-why = Una pantalla emparejada maneja la máquina. Hasta entonces puede mirar, una vez que haya alguna emparejada.
pair-first-why = Aún no hay ninguna pantalla emparejada, así que aquí no se muestra nada.
pair-by-wall = Mostrar un código en la pared
pair-by-console = ¿No hay pared? En la Pi escriba: headsweep wall --code, con --data y su carpeta.
pair-code = Código de la pared
pair-name = Cómo llamar a esta pantalla
pair-do = Emparejar
code-is-shown = La pared propia de la Pi muestra 8 dígitos durante dos minutos. Escríbalos aquí.
code-on-wall = Código para emparejar una pantalla
wrong-code = Ese no es el código, o pasaron sus dos minutos o sus cinco intentos. Pida otra vez un código.
codes-spoilt = Se escribieron demasiados códigos falsos, aquí o en otra pantalla. Pida otra vez un código dentro de { $seconds ->
    [one] un segundo
   *[other] { $seconds } segundos
 }.
screen-paired = Emparejada.
not-paired-disk = Sin emparejar: el disco avisó de un error ({ $why }).
not-unpaired-disk = Aún emparejada: el disco avisó de un error ({ $why }).
screen-left = Ahora esta pantalla solo puede mirar.
screen-unpaired = Desemparejada. Ahora solo puede mirar.
no-such-screen = Esa pantalla ya no existe.
this-screen = Esta pantalla: { $name }
this-screen-own = Esta es la pared propia de la Pi.
this-screen-looks = Esta pantalla solo puede mirar.
leave-do = Desemparejar esta pantalla
screens-paired = Pantallas emparejadas
screens-none = No hay ninguna pantalla emparejada. La pared propia de la Pi no lo necesita.
screens-since = emparejada el { DAY($since) }, usada por última vez el { DAY($seen) }
unpair-do = Desemparejar
unpair-who = De quién es el PIN (alguien que puede configurar)
pin = PIN
pin-of = PIN de quien la hizo
pin-of-reviewer = PIN de quien la revisó
pin-of-leaver = PIN de quien la deja
pin-of-taker = PIN de quien la toma
nobody-has-a-pin = Aún no puede firmar nadie. En la Pi escriba: headsweep access add, con un nombre, y --data y su carpeta.
has-no-pin = { $name } no tiene PIN aquí. Lo tienen: { $there }.
may-not-set-up = { $name } puede firmar, no configurar. Pregunte a alguien cuyo PIN se dio con --set-up.
pin-missing = Escriba el PIN de { $name }.
pin-wrong = Ese no es el PIN de { $name }. Escríbalo otra vez.
pin-locked = El PIN de { $name } falló aquí demasiadas veces. Vuelve a valer dentro de { $minutes ->
    [one] un minuto
   *[other] { $minutes } minutos
 }.
name-missing = Diga el nombre.
pin-not-so = Un PIN tiene de { $least } a { $most } dígitos y nada más.
pin-ask = PIN para { $name }:{ " " }
pin-again = Otra vez el mismo:{ " " }
pins-differ = Los dos PIN difieren. No se cambió nada.
may-do = { $role ->
    [set-up] puede firmar y configurar
   *[sign] puede firmar
 }
pin-kept = { $name } { $may }.
access-person = { $name }: { $may }
access-screen = pantalla { $name }, emparejada el { DAY($since) }, usada por última vez el { DAY($seen) }, { $id }
access-nobody = Nadie tiene PIN, y no hay ninguna pantalla emparejada.
access-unknown = { $name }: no hay persona ni pantalla con ese nombre.
access-removed = Se quitó { $name }.
access-damaged = { $file }: esto no es lo que escribió headsweep ({ $why }). Saque este archivo de su carpeta, y luego empareje pantallas y dé los PIN de nuevo.
wall-key-unread = { $file }: no se puede leer la clave de la pared propia ({ $why }). El servicio la crea en su primer arranque; el usuario de la pared tiene que estar en su grupo.
wall-key-open = { $file }: cualquiera en este equipo puede leer la clave de la pared propia. Se admite: su dueño y un grupo (chmod o= sobre él).
wall-key-short = { $file }: una clave tiene al menos { $least } caracteres. Quite el archivo, y el servicio crea otra.
code-printed = Código para emparejar una pantalla: { $code } (durante { $seconds } segundos)
no-browser = No hay navegador que abrir. Use --link y abra la dirección que imprime, antes de un minuto.
address-not-so = --address: se encontró { $found }; se admite: http://, un equipo y un puerto
service-refuses = El servicio en esa dirección se negó (estado { $status }). ¿Es esta su carpeta de datos?

## A report: what stands on paper and in files

amend-report = Auditoría { $audit }: emitir de nuevo su informe
amend-why = Por qué se reemplaza el informe (hasta { $most } caracteres)
amended-why = why: se encontraron { $found } caracteres; se admite: de 1 a { $most }, por qué se reemplaza el informe
amended-by-nobody = done_by: no se encontró nada; se admite: quién emite de nuevo el informe
amended-unkept = El informe que se reemplaza no vino con ello, así que no se puede conservar: no se registró nada.
report-was-amended = se emitió de nuevo un informe
row-amended = { $now } reemplaza a { $before }, porque: { $why }
no-such-report = No hay informe { $number } de esta auditoría. Hay: { $there }.
report-files = El informe como archivo
report-to-print = Informe, para imprimir
report-file = { $ending ->
    [pdf] PDF
    [xlsx] Hoja de cálculo
    [csv] CSV: lecturas
    [json] JSON
   *[other] CSV: muestras
 }
report-replaced = { $number }, reemplazado
no-such-format = se encontró { $found }; se admite: { $allowed }
paper-title = Comprobación de perpendicularidad
paper-title-of = Comprobación de máquina: { $check }
paper-no-certificate = Esto no es un certificado de calibración.
paper-number = Informe { $number }
paper-page = página { $n } de { $of }
paper-end = Fin del informe { $number }
paper-foot = { $number } · fila { $row } · control { $check }
paper-qr = Registro: fila { $row }, control { $check }
paper-mark = { $status ->
    [practice] PRÁCTICA
    [given-up] SIN FIRMAR: abandonada
   *[draft] SIN FIRMAR: un borrador
 }
paper-part = { $of ->
    [results] Qué se encontró y qué se dejó
    [measured] Qué se midió
    [short] Observaciones
    [instruments] Medido con
    [conditions] Estado de la máquina
    [past] Trabajo desde la última vez que constaba bien
    [addenda] Añadido tras la firma
    [signatures] Firmado
    [remarks] Observaciones, y lo que no cupo en la primera página
    [judged] Cómo se juzgó cada valor
    [sweeps] Cada barrido
    [readings] Cada lectura
    [curve] Error según la longitud
    [budgets] Incertidumbre, término a término
    [rows] Todo lo registrado, fila por fila
    [pictures] Imágenes
   *[record] El registro del que es este informe
 }
paper-fact = { $of ->
    [gauge] Comparador
    [number] Número
    [state] Estado
    [done-by] Hecho por
    [span] Comprobado en
    [warm] Temperatura
    [rested] En reposo juntos
    [short] Error en 0.2 mm, leído desde un lado
    [both-ways] Subida y bajada difieren hasta
    [repeats] Repite dentro de (desviación típica)
    [machine] Máquina
    [asset] Número de inventario
    [place] Lugar
    [customer] Cliente
    [reason] Motivo
    [method] Método
    [done] Hecho
    [issued] Emitido
    [zone] Zona horaria
    [replaces] Enmendado
    [because] Enmendado porque
    [last-good] Última vez que constaba bien
    [disposition] Trabajo desde entonces
    [decided-by] Decidido por
    [condition] Estado
    [audit] Auditoría
    [ledger] Libro
    [row] Fila
    [hash] Hash de esa fila
    [check] Palabra de control
    [chain] Cadena
    [let-go] Muestras
    [software] Programa
    [config] SHA-256 de los archivos del taller
   *[schema] Forma del informe JSON
 }
paper-column = { $of ->
    [length] Longitud
    [off] Desvío según certificado, µm
    [way] Sentido
    [read] Leído
    [error] Error
    [what] {""}
    [allowed] Se admite
    [found] Como se encontró
    [left] Como se dejó
    [expanded] ± U
    [called] Resultado
    [number] Número
    [certificate] Certificado
    [laboratory] Laboratorio
    [calibrated] Calibrado
    [due] Vence
    [role] {""}
    [name] Nombre
    [proof] Firma
    [at] Hora
    [kind] De qué
    [text] Qué se añade
    [by] Por
    [when] {""}
    [value] Valor
    [k] k
    [dof] Libertad
    [guard] Guarda
    [sure] Conforme
    [sweep] N.º
    [counts] Vale como
    [came] Resultado
    [return] Retorno
    [why] Por qué se repitió; qué mostró
    [row] Fila
    [utc] Hora, UTC
    [place] Posición
    [face] Lectura
    [spread] Dispersión
    [samples] Muestras
    [back] {""}
    [term] Qué puede estar desviado
    [u] u
    [note] De dónde viene
    [happened] Qué pasó
   *[hash] El hash empieza
 }
paper-role = { $role ->
    [gauge] Comparador
    [second-gauge] Segundo comparador
    [ring] Anillo
    [wrench] Llave dinamométrica
   *[thermometer] Termómetro
 }
paper-limit = ±{ $limit } { $unit }
paper-limits = de { $low } a { $high } { $unit }
paper-no-limit = sin límite
paper-over = { $limit } en { $over }
paper-tolerance = { $limit } en { $over }{ $named ->
    [none] {""}
   *[other] {" "}({ $named })
 }
paper-k = k = { $k }
paper-called = { $word ->
    [in] conforme
    [out] no conforme
   *[close] no se puede decidir
 }
paper-none = no leído
paper-verdict = { $verdict ->
    [conforms] Conforme
    [does-not-conform] No conforme
    [nothing-moved] Nada se movió
    [look-closer] Mire mejor
   *[cannot-be-decided] No se puede decidir
 }{ $of ->
    [head] , como se dejó
   *[check] {""}
 }
paper-unsigned = { $status ->
    [given-up] Sin dictamen: la auditoría se abandonó
   *[draft] Aún sin dictamen: la auditoría está abierta
 }
paper-rule = Regla de decisión: { $rule }
paper-risk = { $name }{ $guard ->
    [none] {""}
   *[other] {" "}(margen de guarda { $guard })
 }: { $risk }
paper-frozen = La tolerancia es la vigente cuando se abrió la auditoría.
paper-overdue = { DAY($due) }: vencida
paper-condition = { CAP($condition) }
paper-table = Hecho antes de leer: { $done }.
paper-ram = Carnero girado { $angle }°.
paper-bolts-loose = Encontrados flojos: { $bolts }.
paper-bolts-tight = Se puso la llave en cada tornillo: ninguno estaba flojo.
paper-levelled = La máquina se había trasladado; estaba a nivel y asentada.
paper-past-none = { $asked ->
    [asked] Aún no se ha dicho.
   *[not] No hay nada que decir: el cabezal no se encontró fuera de tolerancia, o se esperaba que lo estuviera.
 }
paper-with-addenda = { $count ->
    [one] 1 añadido
   *[other] { $count } añadidos
 }, el último en la fila { $row }: en las páginas que siguen.
paper-signed-as = { $role ->
    [done] Hecho por
   *[reviewed] Revisado por
 }
paper-proved = { $proved ->
    [yes] probado con PIN
   *[no] nombre dado, sin pedir PIN
 }, fila { $row }
paper-unsure-moment = { DAY($moment) } (reloj no puesto en hora por un servidor de hora)
paper-replaces = Reemplaza a { $number }, porque: { $because }
paper-chosen = Por qué vale otro barrido: { $why }
paper-scope = { $of ->
    [head] Este informe se refiere solo a esta máquina tal como se ensayó: estática, sin carga, en una posición de la mesa. No dice nada de salto, recorrido de la mesa, caña ni ménsula.
   *[check] Este informe se refiere solo a esta máquina tal como se ensayó: estática, sin carga, en los lugares leídos.
 }
paper-because-added = se añadió algo, en la fila { $row }
paper-shift = { $name }: el último apriete lo movió { $by } a lo ancho del barrido.
paper-moves = { $moves ->
    [0] No se movió nada.
    [one] Se hizo 1 movimiento.
   *[other] Se hicieron { $moves } movimientos.
 }
paper-unusable = no utilizable
paper-taken-back = retirado por la fila { $row }
paper-in-air = en el aire
paper-budget = { $of }, de { $sweep ->
    [0] las lecturas
   *[other] n.º { $sweep }
 }
paper-gauge-title = Comprobación de un comparador
paper-gauge-in-house = Un certificado propio del taller, con bloques patrón; no es una calibración acreditada.
paper-gauge-verdict = { $word ->
    [in] Bien
    [out] No está bien
   *[close] No se puede decidir
 }
paper-gauge-state = { $state ->
    [found] Como se encontró
   *[left] Como se dejó, tras ajustarlo
 }
paper-gauge-span = Amplitud de todos los errores, { $state ->
    [found] como se encontró
   *[left] como se dejó
 } el { DAY($day) }
paper-rested = { $minutes } min
paper-of-travel = de { $low } a { $high } de { $travel } { $unit }
paper-way = { $way ->
    [up] subida
   *[down] bajada
 }
gauge-check-is = Comprobar este comparador con bloques
gauge-check-title = Comprobar un comparador
gauge-check-says = Con bloques patrón, mientras headsweep sigue. Lo que mide vale en cada auditoría que se abra después.
gauge-check-caution = En un banco o mármol, nunca en un husillo que pueda girar: antes de quitar un comparador de una máquina, párela, póngale candado y siga su manual y las normas del taller.
gauge-check-begin = Empezar la comprobación
gauge-check-blocks = Juego de bloques
gauge-check-warm = A qué temperatura están los bloques
gauge-check-rested = Cuánto llevan juntos comparador y bloques
gauge-check-lengths = Otras longitudes que diez pasos en todo su recorrido y diez en una vuelta
gauge-check-over = En esta parte de su recorrido
gauge-check-these = En su lugar, estas longitudes
gauge-check-now = Llega ahora
gauge-check-no-number = Ahora no hay número
gauge-check-paper = Su certificado (PDF)
bench-gauge = { $name }, número { $number }. q sale en cualquier momento, b retira la última lectura.
bench-parallel = Ponga la palanca del comparador paralela a los bloques.
bench-state = ¿Como se encontró, o como quedó tras ajustarlo? Intro es encontrado, l es ajustado
bench-warm = A qué temperatura están los bloques, como 20.5 °C
bench-rested = Cuánto llevan ahí comparador y bloques, como 2 h
bench-done-by = Hecho por (o nada)
bench-put = { $n } de { $of }: { $on ->
    [surface] apoye el palpador en la superficie donde están los bloques ({ $name })
    [several] ponga los bloques de { $name } bajo el palpador
   *[block] ponga el bloque de { $name } bajo el palpador
 }{ $way ->
    [up] {""}
   *[down] , desde arriba
 }
bench-put-keys = , pulse Intro{ $keyed ->
    [yes] , pulse la tecla del comparador
   *[no] {""}
 }
bench-read = { $keyed ->
    [yes] Leerlo: pulso la tecla del comparador
   *[no] Leerlo
 }
bench-back = Retirar la última
bench-leave = Dejar la comprobación
bench-no-reading = Sin lectura: { $why }
bench-other-unit = Ahora muestra { $now }: pulse su tecla de unidad para volver a { $before }.
bench-went-to-zero = Antes de eso pasó de { $was } a cero estando quieto.
bench-was-zeroed = ¿Se pulsó su cero?
bench-zero-keys = {" "}z: se pulsó su cero, Intro: no se pulsó
bench-zeroed = Se pulsó cero o prefijar
bench-not-zeroed = No se pulsó
bench-odd = Eso difiere { $off } de lo que dicen los bloques, demasiado para el error de un comparador.
bench-what-was-it = ¿Qué fue?
bench-odd-keys = {" "}Intro lo lee otra vez (había otro bloque), z: se pulsó cero o prefijar, k lo conserva
bench-again = Había otro bloque: leerlo otra vez
bench-keep = Conservarlo: el comparador se desvía eso
bench-all-again = Se lee todo otra vez, desde la primera longitud.
bench-from-first = { $unit }, desde la primera
bench-confirm = ¿Registrar esto?
bench-confirm-keys = {" "}Intro es sí, n es no
bench-record = Registrarlo
bench-discard = No registrar nada
bench-recorded = Registrado como fila { $row }.
bench-nothing-recorded = No se registra nada: { $why }
bench-left = usted salió.
bench-input-ended = la entrada acabó.
bench-as-you-wish = como usted quiere.
bench-nobody = nadie ha mirado desde hace un cuarto de hora.
bench-asked-meanwhile = Ahora se pregunta otra cosa.
bench-under-way = Ya se está comprobando un comparador. Termine o deje antes esa comprobación.
bench-in-audit = Una auditoría en { $machine } tiene ese comparador: termínela antes.
bench-failed = No se registra nada: la comprobación acabó por un fallo del programa, que el log nombra.
bench-cable-out = el cable estuvo quitado, y el cero puede haberse movido. Empiece otra vez.
paper-zero-of-a-count = Un cero pulsado sobre un número que está a un dígito de cero parece el parpadeo propio de ese número y no se nota: los errores leídos después se desvían ese dígito, en el que también difiere la primera longitud, leída otra vez.
curve-title = Error según la longitud, en { $unit }, desde la primera lectura
curve-says = El error en cada longitud, leído subiendo y bajando. Del menor al mayor hay { $span }; se admite como máximo { $limit }. Los límites se dibujan con esa separación, con los errores en medio.
curve-along = longitud, { $unit }
curve-allowed = se admite { $limit }
curve-guard = guarda { $limit }
no-gauge-check = Ahí no consta ninguna comprobación del comparador { $gauge } con un juego de bloques. Filas de tales: { $rows }.
paper-combined = Juntas
paper-expanded = U = { $by } (k = { $k }, { $coverage } %)
paper-unsound = ALTERADA: esta fila no está como se escribió
paper-let-go = eliminadas según la norma del taller, en la fila { $rows }; lo que dieron figura aquí
paper-sound = { $sound ->
    [yes] cada fila de esta auditoría, y sus muestras, está como se escribió
   *[no] ALTERADA: algo de esta auditoría no está como se escribió
 }

## A request that cannot be answered

no-setup-here = Aquí no hay instalación que mostrar.
no-doctor-here = Aquí nada examina este equipo.
doctor-title = El doctor
doctor-line = { $about }: { $found }
doctor-all-fine = Todo está bien.
doctor-looks = Se está revisando.
doctor-again = Mirar otra vez
no-list-here = Aquí no se lleva lista de auditorías.
no-trends-here = Aquí no hay tendencias que mostrar.
no-machine-so-called = Aquí no hay ninguna máquina llamada { $key }. Hay: { $there }.
no-practice-mill-here = Aquí no hay fresadora de práctica.
is-a-real-machine = { $machine } es una máquina real: nada de aquí puede moverla.
not-called-so = Este servicio no se llama { $host }. Use la dirección IP de la Pi, o añada el nombre a los hosts en los ajustes del taller.
foreign-page = Se rechazan las peticiones de páginas de { $origin }.
send-as-json = Envíe el cuerpo como application/json.
body-not-json = body: no es JSON; se admite: un objeto JSON
body-no-object = body: se encontró { $found }; se admite: un objeto JSON
body-not-expected = El cuerpo no es como se espera.
address-not-expected = La dirección no es como se espera.
body-too-large = Eso es más de lo que se acepta de una vez.
no-metrics-here = Aquí no hay métricas que leer: shop.toml no dice metrics = true.
metric-build = Qué edición es esta; siempre 1
metric-healthy = Si todo está bien, como dice la página healthz
metric-screens = Pantallas que están abiertas
metric-held = Hilos que están parados
metric-rows = Filas del libro
metric-frames = Tramas que llegaron enteras desde que se abrió el puerto del comparador
metric-bad = Tramas que no se pudieron leer desde que se abrió el puerto del comparador
metric-damaged = De ellas, las que estaban enteras salvo su valor de control
metric-reading = Si se lee el comparador: está, sin que nada falle
metric-age = Qué antigüedad tiene el último número del comparador
metric-recording = Si se registra lo que se pulsa para la máquina
metric-audit = Si hay una auditoría de la máquina abierta
metric-owed = Filas que aún han de salir por esta vía
metric-fails = Si falló el último intento por esta vía
metric-cpu = Tiempo de procesador de este proceso, el suyo y el del sistema para él
metric-memory = Memoria de este proceso que no está en el área de intercambio
metric-began = Cuándo empezó este proceso, desde 1970, UTC
metric-files = Archivos y conexiones que este proceso tiene abiertos
nothing-here = En esta dirección no hay nada.
not-answered = Esto no se puede responder ({ $status }).
too-many-presses = Demasiadas pulsaciones esperan a su comparador: espere un momento y luego pulse otra vez.
all-places-taken = Los { $most } sitios para pantallas están ocupados. Cierre una página que no necesite; esta vuelve entonces por sí sola.
