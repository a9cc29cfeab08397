#pragma once

// Retention values that others published, for tests of the main job; all read in the source or in a
// copy of its table. tests/SOURCES.md explains the keys.

#include <string>
#include <vector>

namespace cospot::published {

struct PublishedIndex {
    std::string compound;
    double index;
};

/// One compound at one temperature (C) in two laboratories.
struct TwoLaboratories {
    std::string compound;
    int celsius;
    double first;
    double second;
};

/// An index as a paper measured it and as it quotes it from others.
struct MeasuredAndQuoted {
    std::string compound;
    double measured;
    double quoted;
};

/// A reference substance with its R_F in hundredths.
struct Reference {
    std::string compound;
    double hrf;
};

struct StandardSystem {
    std::string name; ///< our own
    std::string mobile_phase;
    std::string note;
    std::vector<Reference> references; ///< the lowest first
};

/// Isothermal indices of 21 compounds on 5 % phenyl silicone in two laboratories, computed from
/// their measured retention factors. First: boswell2012; second, between its temperatures on a
/// line: brehmer2023.
inline const std::vector<TwoLaboratories> kTwoLaboratories{
    {"ethylbenzene", 80, 869.5, 863.7},
    {"2-heptanone", 80, 889.5, 888.0},
    {"phenol", 80, 973.8, 974.2},
    {"aniline", 80, 979.8, 977.3},
    {"2-octanone", 80, 989.9, 987.9},
    {"n-butylbenzene", 80, 1058.1, 1056.6},
    {"acetophenone", 80, 1067.9, 1065.1},
    {"1-octanol", 80, 1069.9, 1068.7},
    {"2-nonanone", 80, 1090.6, 1088.7},
    {"linalool", 80, 1099.9, 1098.8},
    {"2-heptanone", 100, 890.1, 888.9},
    {"phenol", 100, 973.1, 972.7},
    {"aniline", 100, 986.0, 983.9},
    {"2-octanone", 100, 990.4, 989.0},
    {"n-butylbenzene", 100, 1064.2, 1063.1},
    {"1-octanol", 100, 1068.9, 1068.3},
    {"acetophenone", 100, 1075.1, 1072.3},
    {"2-nonanone", 100, 1091.1, 1089.5},
    {"linalool", 100, 1101.3, 1100.0},
    {"propiophenone", 100, 1169.7, 1167.2},
    {"2-decanone", 100, 1191.7, 1189.7},
    {"butyrophenone", 100, 1253.3, 1251.0},
    {"2-octanone", 120, 991.2, 989.7},
    {"aniline", 120, 993.0, 989.8},
    {"1-octanol", 120, 1068.9, 1067.6},
    {"n-butylbenzene", 120, 1070.6, 1068.8},
    {"acetophenone", 120, 1083.0, 1079.8},
    {"2-nonanone", 120, 1092.0, 1090.0},
    {"linalool", 120, 1103.2, 1101.8},
    {"propiophenone", 120, 1177.1, 1173.2},
    {"2-decanone", 120, 1192.6, 1191.3},
    {"butyrophenone", 120, 1260.7, 1256.9},
    {"2-undecanone", 120, 1293.1, 1291.3},
    {"linalool", 140, 1105.5, 1104.2},
    {"propiophenone", 140, 1185.2, 1182.3},
    {"2-decanone", 140, 1193.9, 1192.9},
    {"butyrophenone", 140, 1268.9, 1265.7},
    {"2-undecanone", 140, 1294.4, 1293.0},
    {"valerophenone", 140, 1367.9, 1364.6},
    {"2-dodecanone", 140, 1395.0, 1393.4},
    {"hexanophenone", 140, 1468.5, 1464.0},
    {"butyrophenone", 160, 1277.3, 1275.7},
    {"2-undecanone", 160, 1296.1, 1296.2},
    {"valerophenone", 160, 1376.5, 1374.5},
    {"2-dodecanone", 160, 1396.5, 1396.5},
    {"hexanophenone", 160, 1475.7, 1473.7},
    {"2-tridecanone", 160, 1497.0, 1496.7},
    {"heptanophenone", 160, 1575.4, 1573.4},
    {"valerophenone", 180, 1385.5, 1383.4},
    {"2-dodecanone", 180, 1398.4, 1399.2},
    {"hexanophenone", 180, 1484.6, 1482.0},
    {"2-tridecanone", 180, 1499.1, 1498.8},
    {"heptanophenone", 180, 1584.2, 1581.3},
    {"octanophenone", 180, 1685.0, 1681.5},
    {"2-pentadecanone", 180, 1700.1, 1698.7},
    {"hexanophenone", 200, 1494.1, 1495.0},
    {"2-tridecanone", 200, 1501.1, 1502.6},
    {"heptanophenone", 200, 1593.6, 1593.8},
    {"octanophenone", 200, 1694.2, 1694.1},
    {"2-pentadecanone", 200, 1702.0, 1703.4}};

/// 5 % phenyl silicone, isothermal at 100 C, Kovats indices from fitted retention factors:
/// boswell2012. The 2,6-di-tert-butylpyridine is called tert-butylpyridine there; its registry
/// number 585-48-8 tells which.
inline const std::vector<PublishedIndex> kBoswell2012{
    {"propyl acetate", 708.5},
    {"toluene", 784.5},
    {"pyridine", 759.7},
    {"butyl acetate", 808.4},
    {"pentyl acetate", 908.5},
    {"2-hexanone", 789.9},
    {"ethylbenzene", 875.8},
    {"2-heptanone", 889.8},
    {"hexyl acetate", 1008.7},
    {"2-octanone", 990.3},
    {"N,N-dimethylisobutyramide", 973.1},
    {"phenol", 973.4},
    {"linalool", 1101.1},
    {"n-butylbenzene", 1064.0},
    {"aniline", 986.5},
    {"N,N-diethylacetamide", 998.4},
    {"2-nonanone", 1090.8},
    {"acetophenone", 1074.7},
    {"2-decanone", 1192.2},
    {"octyl acetate", 1209.2},
    {"propiophenone", 1169.7},
    {"naphthalene", 1193.2},
    {"butyrophenone", 1253.4},
    {"2-undecanone", 1292.7},
    {"decyl acetate", 1411.4},
    {"valerophenone", 1352.8},
    {"2-dodecanone", 1393.5},
    {"indole", 1289.8},
    {"2-tridecanone", 1498.9},
    {"2-pentadecanone", 1693.3},
    {"coumarin", 1422.4},
    {"ethyl indole-3-acetate", 1840.0},
    {"triphenylmethane", 1932.3},
    {"benzamide", 1321.6},
    {"4-nitroaniline", 1571.8},
    {"1-naphthol", 1496.2},
    {"resorcinol", 1275.4},
    {"hexanophenone", 1456.4},
    {"heptanophenone", 1556.6},
    {"octanophenone", 1656.1},
    {"2,6-di-tert-butylpyridine", 1100.3},
    {"4-methylpyridine", 875.2},
    {"4-ethylaniline", 1171.4},
    {"4-butylaniline", 1361.1},
    {"4-hexylaniline", 1561.5},
    {"4-octylaniline", 1760.0},
    {"4-decylaniline", 1959.4},
    {"1-octanol", 1069.2},
    {"octanoic acid", 1164.5},
    {"decanoic acid", 1358.9},
    {"lidocaine", 1837.0},
    {"caffeine", 1789.7},
    {"anthracene", 1724.5},
    {"1-phenyl-2-pyrrolidin-1-ylpropan-1-ol", 1654.2},
    {"diphenylamine", 1598.0},
    {"benzocaine", 1562.5},
    {"nikethamide", 1524.3},
    {"nicotine", 1340.2},
    {"trihexylamine", 1723.9}};

/// The same phase, temperature and kind of index: gaida2021.
inline const std::vector<PublishedIndex> kGaida2021{{"limonene", 1039.0},
                                                    {"1,8-cineole", 1043.1},
                                                    {"benzoic acid", 1158.0},
                                                    {"geraniol", 1253.6},
                                                    {"cinnamaldehyde", 1270.0},
                                                    {"hydroxycitronellal", 1285.6},
                                                    {"thymol", 1290.7},
                                                    {"cinnamyl alcohol", 1303.1},
                                                    {"vanillin", 1391.8},
                                                    {"cinnamyl acetate", 1439.9},
                                                    {"benzyl salicylate", 1826.1},
                                                    {"1-octanol", 1069.2},
                                                    {"nonanal", 1104.9},
                                                    {"2,6-dimethylphenol", 1110.1},
                                                    {"2-ethylhexanoic acid", 1108.2},
                                                    {"2,6-dimethylaniline", 1171.5},
                                                    {"methyl decanoate", 1323.0},
                                                    {"dicyclohexylamine", 1407.1},
                                                    {"methyl undecanoate", 1423.8},
                                                    {"methyl laurate", 1524.3}};

/// The same phase, temperature and kind of index: karolat2010.
inline const std::vector<PublishedIndex> kKarolat2010{
    {"1-octanol", 1071.4}, {"1-nonanol", 1170.7}, {"2-octanol", 1003.3}, {"2-nonanol", 1101.8},
    {"5-nonanol", 1089.8}, {"5-decanol", 1189.0}, {"2-octanone", 993.4}, {"2-decanone", 1190.6}};

/// Rosemary oil on a non-polar phase, temperature-programmed, linear indices: kowalski2019,
/// Table 8.
inline const std::vector<PublishedIndex> kKowalski2019{{"alpha-pinene", 939},
                                                       {"camphene", 953},
                                                       {"beta-pinene", 981},
                                                       {"myrcene", 994},
                                                       {"alpha-phellandrene", 1008},
                                                       {"alpha-terpinene", 1020},
                                                       {"o-cymene", 1028},
                                                       {"1,8-cineole", 1033},
                                                       {"gamma-terpinene", 1060},
                                                       {"linalool", 1099},
                                                       {"alpha-pinene oxide", 1103},
                                                       {"camphor", 1146},
                                                       {"isoborneol", 1159},
                                                       {"borneol", 1169},
                                                       {"alpha-terpineol", 1190},
                                                       {"gamma-terpineol", 1203},
                                                       {"carvone", 1243},
                                                       {"isobornyl acetate", 1287},
                                                       {"(E)-caryophyllene", 1420}};

/// Wine esters on polyethylene glycol, temperature-programmed, as measured and as quoted from the
/// literature: wineesters2022, Table 2. Isoamyl lactate lies 58 units off.
inline const std::vector<MeasuredAndQuoted> kWineEsters{{"ethyl acetate", 897, 888},
                                                        {"isoamyl acetate", 1128, 1131},
                                                        {"ethyl hexanoate", 1239, 1241},
                                                        {"ethyl 2-hexenoate", 1350, 1343},
                                                        {"ethyl lactate", 1357, 1352},
                                                        {"ethyl octanoate", 1443, 1436},
                                                        {"ethyl 3-hydroxybutyrate", 1534, 1524},
                                                        {"isoamyl lactate", 1581, 1523},
                                                        {"ethyl decanoate", 1648, 1636},
                                                        {"diethyl succinate", 1689, 1688},
                                                        {"methyl salicylate", 1809, 1788}};

/// Standard systems of thin-layer chromatography on silica gel (0.25 mm), with the reference
/// substances that go with each and their hR_F: tlcsheet.
inline const std::vector<StandardSystem> kStandardSystems{
    {"methanol",
     "methanol",
     "",
     {{"codeine", 20}, {"trimipramine", 36}, {"hydroxyzine", 56}, {"diazepam", 82}}},
    {"methanol-butanol",
     "methanol:1-butanol 60:40",
     "0.1 mol/L sodium bromide",
     {{"codeine", 22}, {"diphenhydramine", 48}, {"quinine", 65}, {"diazepam", 85}}},
    {"methanol-ammonia",
     "methanol:ammonia 100:1.5",
     "plate dipped in 0.1 mol/L KOH in methanol",
     {{"atropine", 18}, {"codeine", 33}, {"chlorprothixene", 56}, {"diazepam", 75}}},
    {"cyclohexane-toluene-diethylamine",
     "cyclohexane:toluene:diethylamine 75:15:10",
     "plate dipped in 0.1 mol/L KOH in methanol",
     {{"codeine", 6}, {"desipramine", 20}, {"prazepam", 36}, {"trimipramine", 62}}},
    {"chloroform-methanol",
     "chloroform:methanol 90:10",
     "plate dipped in 0.1 mol/L KOH in methanol",
     {{"desipramine", 11}, {"physostigmine", 36}, {"trimipramine", 54}, {"lidocaine", 71}}},
    {"acetone",
     "acetone",
     "plate dipped in 0.1 mol/L KOH in methanol",
     {{"amitriptyline", 15}, {"procaine", 30}, {"papaverine", 47}, {"cinnarizine", 65}}}};

} // namespace cospot::published
