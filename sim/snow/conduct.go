package snow

// Conductivity returns the effective thermal conductivity of the pack, W/m/K,
// from its density rho, g/cm3: 0.138 - 1.01 rho + 3.233 rho^2 from 0.156 to
// 0.6, 0.023 + 0.234 rho below (Sturm et al. 1997); 0 without snow.
func (p Pack) Conductivity() float64 {
	rho := p.Density / 1000
	switch {
	case p.SWE == 0:
		return 0
	case rho < 0.156:
		return 0.023 + 0.234*rho
	}
	return 0.138 - 1.01*rho + 3.233*rho*rho
}

// Resistance returns the thermal resistance of the pack, its depth over its
// conductivity, m2K/W; 0 without snow.
func (p Pack) Resistance() float64 {
	if p.SWE == 0 {
		return 0
	}
	return p.Depth() / p.Conductivity()
}
