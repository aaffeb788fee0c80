# Unidades: los símbolos son los mismos en las dos lenguas, salvo donde la obra dice otra cosa.

unit-cfm = cfm
unit-ft2 = pies²
unit-ft3 = pies³
unit-percent = %
unit-s = s
unit-gpm = gpm
unit-psi = psi
unit-kbtu-h = kBtu/h
