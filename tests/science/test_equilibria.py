import pytest

from webapp.science import equilibria as k

CONSTANTS = [
    k.co2_solubility, k.carbonic_acid_k1_k2, k.boric_acid, k.water, k.aragonite_solubility, k.calcite_solubility,
    k.bisulfate, k.hydrogen_fluoride,
]  # fmt: skip
TOTALS = [k.total_boron, k.total_sulfate, k.total_fluoride, k.total_calcium]


@pytest.mark.parametrize("constant", CONSTANTS)
def test_outside_the_fitted_range_is_refused_by_name(constant):
    with pytest.raises(ValueError, match="^salinity "):
        constant(5, 25)
    with pytest.raises(ValueError, match="^temp_c "):
        constant(35, 40)


@pytest.mark.parametrize("total", TOTALS)
def test_composition_is_in_proportion_to_salinity(total):
    assert total(40) == pytest.approx(2 * total(20))
    with pytest.raises(ValueError, match="^salinity "):
        total(50)


def test_gas_leaves_warm_water():
    assert k.co2_solubility(35, 28) < k.co2_solubility(35, 20)
    with pytest.raises(ValueError, match="^temp_c "):
        k.co2_fugacity_factor(50)
