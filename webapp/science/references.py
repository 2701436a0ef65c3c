"""The published sources of the equations: the key used in docstrings -> the full citation."""

REFERENCES = {
    "bower_bidwell_1978": (
        "Bower, C. E., Bidwell, J. P. (1978). Ionization of ammonia in seawater: effects of temperature, pH, and "
        "salinity. J. Fish. Res. Board Can. 35, 1012-1016. doi:10.1139/f78-165"
    ),
    "clegg_whitfield_1995": (
        "Clegg, S. L., Whitfield, M. (1995). A chemical model of seawater including dissolved ammonia and the "
        "stoichiometric dissociation constant of ammonia in estuarine water and seawater from -2 to 40 °C. "
        "Geochim. Cosmochim. Acta 59, 2403-2421."
    ),
    "dickson_1990_bisulfate": (
        "Dickson, A. G. (1990). Standard potential of the reaction AgCl(s) + 1/2 H2(g) = Ag(s) + HCl(aq), and the "
        "standard acidity constant of the ion HSO4- in synthetic sea water from 273.15 to 318.15 K. J. Chem. "
        "Thermodyn. 22, 113-127. doi:10.1016/0021-9614(90)90074-Z"
    ),
    "dickson_1990_boric": (
        "Dickson, A. G. (1990). Thermodynamics of the dissociation of boric acid in synthetic seawater from "
        "273.15 to 318.15 K. Deep-Sea Res. A 37, 755-766. doi:10.1016/0198-0149(90)90004-F"
    ),
    "dickson_2007": (
        "Dickson, A. G., Sabine, C. L., Christian, J. R., eds. (2007). Guide to best practices for ocean CO2 "
        "measurements. PICES Special Publication 3, chapter 5."
    ),
    "dickson_riley_1979": (
        "Dickson, A. G., Riley, J. P. (1979). The estimation of acid dissociation constants in seawater media "
        "from potentiometric titrations with strong base, II. Mar. Chem. 7, 101-109. "
        "doi:10.1016/0304-4203(79)90002-1"
    ),
    "diperna_2018": (
        "DiPerna, S., Hoogenboom, M., Noonan, S., Fabricius, K. (2018). Effects of variability in daily light "
        "integrals on the photophysiology of the corals Pachyseris speciosa and Acropora millepora. PLoS ONE "
        "13(9), e0203882. doi:10.1371/journal.pone.0203882"
    ),
    "iupac_2021": (
        "Prohaska, T. et al. (2022). Standard atomic weights of the elements 2021 (IUPAC Technical Report). Pure "
        "Appl. Chem. 94, 573-600. doi:10.1515/pac-2019-0603"
    ),
    "kaplan_meier_1958": (
        "Kaplan, E. L., Meier, P. (1958). Nonparametric estimation from incomplete observations. J. Am. Stat. Assoc. "
        "53, 457-481. doi:10.1080/01621459.1958.10501452"
    ),
    "khoo_1977": (
        "Khoo, K. H., Culberson, C. H., Bates, R. G. (1977). Thermodynamics of the dissociation of ammonium ion "
        "in seawater from 5 to 40 °C. J. Solution Chem. 6, 281-290. doi:10.1007/BF00645459"
    ),
    "lewis_1980": (
        "Lewis, E. L. (1980). The practical salinity scale 1978 and its antecedents. IEEE J. Ocean. Eng. OE-5, "
        "3-8. doi:10.1109/JOE.1980.1145448"
    ),
    "lueker_2000": (
        "Lueker, T. J., Dickson, A. G., Keeling, C. D. (2000). Ocean pCO2 calculated from dissolved inorganic "
        "carbon, alkalinity, and equations for K1 and K2. Mar. Chem. 70, 105-119. "
        "doi:10.1016/S0304-4203(00)00022-0"
    ),
    "millero_1995": (
        "Millero, F. J. (1995). Thermodynamics of the carbon dioxide system in the oceans. Geochim. Cosmochim. "
        "Acta 59, 661-677. doi:10.1016/0016-7037(94)00354-O"
    ),
    "millero_2008": (
        "Millero, F. J., Feistel, R., Wright, D. G., McDougall, T. J. (2008). The composition of Standard "
        "Seawater and the definition of the Reference-Composition Salinity Scale. Deep-Sea Res. I 55, 50-72. "
        "doi:10.1016/j.dsr.2007.10.001"
    ),
    "morris_riley_1966": (
        "Morris, A. W., Riley, J. P. (1966). The bromide/chlorinity and sulphate/chlorinity ratio in sea water. "
        "Deep-Sea Res. 13, 699-705."
    ),
    "mucci_1983": (
        "Mucci, A. (1983). The solubility of calcite and aragonite in seawater at various salinities, "
        "temperatures, and one atmosphere total pressure. Am. J. Sci. 283, 780-799. doi:10.2475/ajs.283.7.780"
    ),
    "nist_hb44": (
        "National Institute of Standards and Technology. Specifications, tolerances, and other technical "
        "requirements for weighing and measuring devices. Handbook 44, appendix C: general tables of units."
    ),
    "nist_strd": (
        "National Institute of Standards and Technology. Statistical Reference Datasets: linear regression, "
        "Norris."
    ),
    "quan_fry_1995": (
        "Quan, X., Fry, E. S. (1995). Empirical equation for the index of refraction of seawater. Appl. Opt. 34, "
        "3477-3480. doi:10.1364/AO.34.003477"
    ),
    "riley_1965": (
        "Riley, J. P. (1965). The occurrence of anomalously high fluoride concentrations in the North Atlantic. "
        "Deep-Sea Res. 12, 219-220."
    ),
    "riley_tongudai_1967": (
        "Riley, J. P., Tongudai, M. (1967). The major cation/chlorinity ratios in sea water. Chem. Geol. 2, "
        "263-269."
    ),
    "bricaud_1981": (
        "Bricaud, A., Morel, A., Prieur, L. (1981). Absorption by dissolved organic matter of the sea (yellow "
        "substance) in the UV and visible domains. Limnol. Oceanogr. 26, 43-53."
    ),
    "hyndman_fan_1996": (
        "Hyndman, R. J., Fan, Y. (1996). Sample quantiles in statistical packages. Am. Stat. 50, 361-365."
    ),
    "jcgm_100_2008": (
        "Joint Committee for Guides in Metrology (2008). Evaluation of measurement data: guide to the expression of "
        "uncertainty in measurement. JCGM 100, section 5.1.2."
    ),
    "kahn_barry_1997": (
        "Kahn, J. M., Barry, J. R. (1997). Wireless infrared communications. Proc. IEEE 85, 265-298. "
        "doi:10.1109/5.554222"
    ),
    "nelson_bugbee_2014": (
        "Nelson, J. A., Bugbee, B. (2014). Economic analysis of greenhouse lighting: light emitting diodes vs. high "
        "intensity discharge fixtures. PLoS ONE 9(6), e99010. doi:10.1371/journal.pone.0099010"
    ),
    "pope_fry_1997": (
        "Pope, R. M., Fry, E. S. (1997). Absorption spectrum (380-700 nm) of pure water. II. Integrating cavity "
        "measurements. Appl. Opt. 36, 8710-8723. doi:10.1364/AO.36.008710"
    ),
    "rajaratnam_1976": "Rajaratnam, N. (1976). Turbulent jets. Developments in Water Science 5. Elsevier, Amsterdam.",
    "shannon_1948": (
        "Shannon, C. E. (1948). A mathematical theory of communication. Bell Syst. Tech. J. 27, 379-423 and 623-656."
    ),
    "thimijan_heins_1983": (
        "Thimijan, R. W., Heins, R. D. (1983). Photometric, radiometric, and quantum light units of measure: a review "
        "of procedures for interconversion. HortScience 18, 818-822."
    ),
    "skirving_2020": (
        "Skirving, W. et al. (2020). CoralTemp and the Coral Reef Watch Coral Bleaching Heat Stress Product Suite "
        "Version 3.1. Remote Sens. 12, 3856. doi:10.3390/rs12233856"
    ),
    "takahashi_1982": (
        "Takahashi, T., Williams, R. T., Bos, D. L. (1982). Carbonate chemistry. In: GEOSECS Pacific Expedition, "
        "vol. 3, Hydrographic data 1973-1974, chapter 3, p. 80."
    ),
    "teos10_2010": (
        "IOC, SCOR, IAPSO (2010). The international thermodynamic equation of seawater - 2010. Manuals and Guides "
        "56, UNESCO."
    ),
    "unesco_44": (
        "Fofonoff, N. P., Millard, R. C. (1983). Algorithms for computation of fundamental properties of "
        "seawater. UNESCO Tech. Pap. Mar. Sci. 44. doi:10.25607/OBP-1450"
    ),
    "uppstrom_1974": (
        "Uppström, L. R. (1974). The boron/chlorinity ratio of deep-sea water from the Pacific Ocean. Deep-Sea "
        "Res. 21, 161-162. doi:10.1016/0011-7471(74)90074-6"
    ),
    "weiss_1974": (
        "Weiss, R. F. (1974). Carbon dioxide in water and seawater: the solubility of a non-ideal gas. Mar. Chem. "
        "2, 203-215. doi:10.1016/0304-4203(74)90015-2"
    ),
}
