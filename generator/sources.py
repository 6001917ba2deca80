"""The bibliography: one key, one full citation, and where it was read."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Source:
    """A published source; ``seen`` is False where it is cited from memory."""

    citation: str
    url: str = ""
    seen: bool = True


SOURCES: dict[str, Source] = {
    "NIST-HB44": Source(
        "NIST Handbook 44, Appendix C, General Tables of Units of Measurement "
        "(1 US gallon is 231 cubic inches)",
        seen=False,
    ),
    "Chow1959": Source(
        "V. T. Chow, Open-Channel Hydraulics, McGraw-Hill 1959: Table 2-1 (round "
        "section), equation 5-6 (Manning), section 6-4 (flow near the crown)",
        seen=False,
    ),
    "GUM": Source(
        "JCGM 100:2008, Evaluation of measurement data: Guide to the expression of "
        "uncertainty in measurement (GUM 1995 with minor corrections)",
        "https://www.bipm.org/en/committees/jc/jcgm/publications",
        seen=False,
    ),
    "JCGM106": Source(
        "JCGM 106:2012, Evaluation of measurement data: The role of measurement "
        "uncertainty in conformity assessment",
        "https://www.bipm.org/documents/20126/2071204/JCGM_106_2012_E.pdf",
        seen=False,
    ),
    "Press2007": Source(
        "W. H. Press et al., Numerical Recipes, 3rd edition, Cambridge 2007, "
        "section 9.1.1 (bisection)",
        seen=False,
    ),
    "EXAM-FILL": Source(
        "Operator exam practice, time to fill a tank: volume over flow",
        "https://wastewater101.net/2019/01/time-for-math-9/",
    ),
    "BALANCE": Source(
        "Conservation of volume in the tank: what ran in either stands in it or went "
        "on. No source is needed beyond the volumes themselves."
    ),
    "WINCHESTER-N": Source(
        "City code of Winchester, Indiana, Table 4, Manning's n (takes the values of "
        "the Federal Highway Administration)",
        "https://codelibrary.amlegal.com/codes/winchester/latest/winchester_in/0-0-0-1995",
    ),
    "DINGMAN-N": Source(
        "Dingman Township, Pennsylvania, Appendix B.5, Manning's n (vitrified sewer "
        "pipe 0.013, clay drain tile 0.012, concrete pipe 0.012)",
        "http://dingmantownship.org/Manning%20Values.htm",
    ),
    "PVC-MAKER-N": Source(
        "Technical note of a maker of PVC pipe, Manning's n of 0.009 (the maker is not "
        "named here)",
    ),
    "CHICAGO-SLOPES": Source(
        "Chicago Plumbing Code, Table 18-29-704.1 (least slope of horizontal drainage "
        "pipe)",
        "https://codelibrary.amlegal.com/codes/chicago/latest/chicago_il/0-0-0-2691996",
    ),
    "GEOMETRY": Source(
        "Plane geometry: where two circles cross, and points along and beside a line. "
        "No source is needed beyond the theorem of Pythagoras."
    ),
    "MAHUN-LS": Source(
        "J. Mahun, Open Access Surveying Library, XV Least squares lite, chapter H "
        "(distance intersection by least squares, error ellipse)",
        "https://jerrymahun.com/index.php/home/open-access/xv-least-squares-lite/238-chapter-h-more-horizontal-examples",
    ),
    "PUMP-TABLE": Source(
        "Extension table of years between septic tank pumpings, as reprinted on a "
        "Minnesota lakes page; our formula gives 94 of its 99 cells exactly and the "
        "others within 0.1 year",
        "http://uhla.mnlakesandrivers.org/septic-systems/pumping-frequency/",
    ),
    "MN-7080-2450": Source(
        "Minnesota Rules 7080.2450, subparts 2 and 3 (maintenance of sewage tanks)",
        "https://www.revisor.mn.gov/rules/7080.2450/",
    ),
    "PA-71-73": Source(
        "25 Pa. Code 71.73(b)(2)(i) (sewage management programs)",
        "https://print.casetext.com/regulation/pennsylvania-code-rules-and-regulations/title-25-environmental-protection/part-i-department-of-environmental-protection/subpart-c-protection-of-natural-resources/article-i-land-resources/chapter-71-administration-of-sewage-facilities-planning-program/subchapter-e-sewage-management-programs/section-7173-sewage-management-programs-for-sewage-facilities-permitted-by-local-agencies",
    ),
    "WAC-0230": Source(
        "WAC 246-272A-0230(2)(d) (Washington, design flow; 45 gallons a day a person "
        "is the flow in use)",
        "https://www.law.cornell.edu/regulations/washington/WAC-246-272A-0230",
    ),
    "WAC-0220": Source(
        "WAC 246-272C-0220 (Washington, making of tanks: outlet device reaches 30 to "
        "40 % of the liquid depth, 25 to 35 % in a lying cylinder; first of two "
        "compartments 1/2 to 2/3 of the capacity)",
        "https://lawfilesext.leg.wa.gov/Law/WACArchive/2022/htm/WAC%20246%20%20TITLE/WAC%20246%20-272C%20CHAPTER/WAC%20246%20-272C-0220.htm",
    ),
    "NAC-444-804": Source(
        "NAC 444.804 (Nevada, making of septic tanks: inlet compartment at least 2/3 "
        "of the capacity)",
        "https://casetext.com/regulation/nevada-administrative-code/chapter-444-sanitation/sewage-disposal/individual-sewage-disposal-systems/section-444804-construction-of-septic-tank",
    ),
    "MN-7080-1500": Source(
        "Minnesota Rules 7080.1500, subpart 4 (an unsecured, damaged or weak tank "
        "cover is an imminent threat to health or safety)",
        "https://regulations.justia.com/states/minnesota/pollution-control-agency/7080/7080-1500/",
    ),
    "MA-15-303": Source(
        "310 CMR 15.303(1)(a) (systems failing to protect public health: backup, "
        "breakout, unsound tank)",
        "http://casetext.com/regulation/code-of-massachusetts-regulations/department-310-cmr-department-of-environmental-protection/title-310-cmr-15000-the-state-environmental-code-title-5-standard-requirements-for-the-sitting-construction-inspection-upgrade-and-expansion-of-on-site-sewage/subpart-d-inspection-and-maintenance-of-systems/section-15303-systems-failing-to-protect-public-health-and-safety-and-the-environment",
    ),
    "NJ-7-9A-E": Source(
        "N.J.A.C. 7:9A Appendix E, System Inspection Protocol (New Jersey: lush "
        "growth and other signs of discharge; invasive roots over a part or within "
        "10 ft of the disposal area; structures, heavy objects and tyre tracks over "
        "parts)",
        "https://regulations.justia.com/states/new-jersey/title-7/chapter-9a/appendix-e",
    ),
    "NJ-7-9A-3-4": Source(
        "N.J.A.C. 7:9A-3.4(b) (New Jersey, signs of malfunction: among them a backup "
        "that no blocked inside plumbing explains)",
        "https://www.law.cornell.edu/regulations/new-jersey/N-J-A-C-7-9A-3-4",
    ),
    "MA-15-303-PIT": Source(
        "310 CMR 15.303(1)(a) (Massachusetts: a cesspool fails where liquid stands "
        "within 6 in of the inlet invert, or where the free volume above it is under "
        "half of one day's design flow)",
        "http://casetext.com/regulation/code-of-massachusetts-regulations/department-310-cmr-department-of-environmental-protection/title-310-cmr-15000-the-state-environmental-code-title-5-standard-requirements-for-the-sitting-construction-inspection-upgrade-and-expansion-of-on-site-sewage/subpart-d-inspection-and-maintenance-of-systems/section-15303-systems-failing-to-protect-public-health-and-safety-and-the-environment",
    ),
    "PIT-CODES": Source(
        "Minnesota Rules 7080.1500, subpart 4 (a cesspool, seepage pit or other pit "
        "fails to protect groundwater), and Nebraska Title 124, chapter 2 (a cesspool "
        "or seepage pit is a failed or prohibited system)",
        "https://regulations.justia.com/states/minnesota/pollution-control-agency/7080/7080-1500/",
    ),
    "NH-402-41": Source(
        "N.H. Env-Wq 402.41(f) (New Hampshire, holding tanks of the groundwater "
        "program: emptied when 80 % full)",
        "https://regulations.justia.com/states/new-hampshire/env/subtitle-env-wq/chapter-env-wq-400/part-env-wq-402/section-env-wq-402-41",
    ),
    "PIMA-7-21": Source(
        "Pima County Code 7.21.050 (baffles and tees in place, tank holds its liquid, "
        "field accepts liquid)",
        "https://codelibrary.amlegal.com/codes/pimacounty/latest/pimacounty_az/0-0-0-2518",
    ),
    "TX-285-91": Source(
        "30 TAC 285.91(1) (long-term application rates; the area counted is the bottom "
        "and one foot of side wall all round)",
        "https://texreg.sos.state.tx.us/fids/30_0285_0091-1.html",
    ),
    "MAINE-POLICY": Source(
        "Maine state policy of 2005: give or take 2 ft for locating an existing field "
        "or well",
        "http://www.maine.gov/dhhs/mecdc/environmental-health/plumb/policies/policy00.htm",
    ),
    "H2S": Source(
        "Hydrogen sulfide limits: NIOSH IDLH 100 ppm, OSHA ceiling 20 ppm",
        "https://pmc.ncbi.nlm.nih.gov/articles/PMC5777517/table/T3",
    ),
    "METHANE": Source(
        "Methane: flammable from 5 to 15 % in air (San Joaquin County landfill gas "
        "guidance)",
        "https://lfweb.sjgov.org/WebLink/1/doc/600354/Page24.aspx",
    ),
    "TRENCH": Source(
        "29 CFR 1926.652(a)(1) (protective system in excavations of 5 ft or more)",
        "http://www.improvedconstructionmethods-houston.com/requirements_for_protective_systems_126.652.htm",
    ),
    "CALL811": Source(
        "29 CFR 1926.651(b)(1)-(2) and the national call number 811 (utility location)",
        "https://jjkellercompliancenetwork.com/news/agency-reminder-call-before-you-dig",
    ),
    "PSU-HLT": Source(
        "Penn State Extension, Hydraulic Load Test (2017): the design daily volume "
        "into the absorption area on day 1, and on day 2 what it takes to restore the "
        "level of day 1",
        "https://extension.psu.edu/hydraulic-load-test",
    ),
    "LOAD-LIMITS": Source(
        "The limits of this load test were chosen by the inspector; no state code that "
        "we read gives a figure for a same-visit test through the tank"
    ),
    "practice": Source("Common practice, no source"),
    "choice": Source("Our own choice, no source"),
    "inspector": Source("The inspector's own observation and judgment"),
}
