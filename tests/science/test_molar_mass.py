import pytest

from webapp.science.molar_mass import molar_mass_g_mol


def test_parts_add_up():
    assert molar_mass_g_mol(Ca=1, C=1, O=3) == pytest.approx(molar_mass_g_mol(Ca=1, O=1) + molar_mass_g_mol(C=1, O=2))


@pytest.mark.parametrize("atoms", [{"Xx": 1}, {"Ca": -1}])
def test_unknown_elements_and_negative_counts_are_refused_by_name(atoms):
    with pytest.raises(ValueError, match=f"^{next(iter(atoms))} "):
        molar_mass_g_mol(**atoms)
