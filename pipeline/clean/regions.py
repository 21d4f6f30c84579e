"""Countries to world regions: the areas of the United Nations' M49 standard.

Source: United Nations Statistics Division, "Standard country or area codes for statistical use"
(M49). The finest area that M49 gives is taken (the Caribbean, not Latin America and the Caribbean).
Names are common English short forms; a name that is not here has no area and is counted.
"""

from __future__ import annotations

from functools import cache

from pipeline.clean.gazetteer import folded

# code, area: countries
M49 = """
015 Northern Africa: Algeria, Egypt, Libya, Morocco, Sudan, Tunisia, Western Sahara
014 Eastern Africa: British Indian Ocean Territory, Burundi, Comoros, Djibouti, Eritrea, Ethiopia, French Southern Territories, Kenya, Madagascar, Malawi, Mauritius, Mayotte, Mozambique, Réunion, Rwanda, Seychelles, Somalia, South Sudan, Tanzania, Uganda, Zambia, Zimbabwe
017 Middle Africa: Angola, Cameroon, Central African Republic, Chad, Congo, DR Congo, Equatorial Guinea, Gabon, São Tomé and Príncipe
018 Southern Africa: Botswana, Eswatini, Lesotho, Namibia, South Africa
011 Western Africa: Benin, Burkina Faso, Cabo Verde, Côte d'Ivoire, Gambia, Ghana, Guinea, Guinea-Bissau, Liberia, Mali, Mauritania, Niger, Nigeria, Saint Helena, Senegal, Sierra Leone, Togo
029 Caribbean: Anguilla, Antigua and Barbuda, Aruba, Bahamas, Barbados, British Virgin Islands, Caribbean Netherlands, Cayman Islands, Cuba, Curaçao, Dominica, Dominican Republic, Grenada, Guadeloupe, Haiti, Jamaica, Martinique, Montserrat, Puerto Rico, Saint Barthélemy, Saint Kitts and Nevis, Saint Lucia, Saint Martin, Saint Vincent and the Grenadines, Sint Maarten, Trinidad and Tobago, Turks and Caicos Islands, US Virgin Islands
013 Central America: Belize, Costa Rica, El Salvador, Guatemala, Honduras, Mexico, Nicaragua, Panama
005 South America: Argentina, Bolivia, Bouvet Island, Brazil, Chile, Colombia, Ecuador, Falkland Islands, French Guiana, Guyana, Paraguay, Peru, South Georgia and the South Sandwich Islands, Suriname, Uruguay, Venezuela
021 Northern America: Bermuda, Canada, Greenland, Saint Pierre and Miquelon, United States
143 Central Asia: Kazakhstan, Kyrgyzstan, Tajikistan, Turkmenistan, Uzbekistan
030 Eastern Asia: China, Hong Kong, Japan, Macao, Mongolia, North Korea, South Korea, Taiwan
035 South-eastern Asia: Brunei, Cambodia, Indonesia, Laos, Malaysia, Myanmar, Philippines, Singapore, Thailand, Timor-Leste, Vietnam
034 Southern Asia: Afghanistan, Bangladesh, Bhutan, India, Iran, Maldives, Nepal, Pakistan, Sri Lanka
145 Western Asia: Armenia, Azerbaijan, Bahrain, Cyprus, Georgia, Iraq, Israel, Jordan, Kuwait, Lebanon, Oman, Palestine, Qatar, Saudi Arabia, Syria, Türkiye, United Arab Emirates, Yemen
151 Eastern Europe: Belarus, Bulgaria, Czechia, Hungary, Moldova, Poland, Romania, Russia, Slovakia, Ukraine
154 Northern Europe: Åland Islands, Denmark, Estonia, Faroe Islands, Finland, Guernsey, Iceland, Ireland, Isle of Man, Jersey, Latvia, Lithuania, Norway, Svalbard and Jan Mayen, Sweden, United Kingdom
039 Southern Europe: Albania, Andorra, Bosnia and Herzegovina, Croatia, Gibraltar, Greece, Holy See, Italy, Malta, Montenegro, North Macedonia, Portugal, San Marino, Serbia, Slovenia, Spain
155 Western Europe: Austria, Belgium, France, Germany, Liechtenstein, Luxembourg, Monaco, Netherlands, Switzerland
053 Australia and New Zealand: Australia, Christmas Island, Cocos Islands, Heard Island and McDonald Islands, New Zealand, Norfolk Island
054 Melanesia: Fiji, New Caledonia, Papua New Guinea, Solomon Islands, Vanuatu
057 Micronesia: Guam, Kiribati, Marshall Islands, Federated States of Micronesia, Nauru, Northern Mariana Islands, Palau, United States Minor Outlying Islands
061 Polynesia: American Samoa, Cook Islands, French Polynesia, Niue, Pitcairn, Samoa, Tokelau, Tonga, Tuvalu, Wallis and Futuna
"""  # noqa: E501

# Other names of the same. ASSUME: the home nations stand in the area of the United Kingdom, whose
# parts they are; M49 does not list them (common practice in cricket is to name them singly).
ALSO = {
    **dict.fromkeys(("England", "Northern Ireland", "Scotland", "Wales", "UK"), "United Kingdom"),
    "USA": "United States",
    "United States of America": "United States",
    "UAE": "United Arab Emirates",
    "The Netherlands": "Netherlands",
    "Turkey": "Türkiye",
    "Swaziland": "Eswatini",
    "Cape Verde": "Cabo Verde",
    "Czech Republic": "Czechia",
    "Ivory Coast": "Côte d'Ivoire",
    "Viet Nam": "Vietnam",
    "Democratic Republic of the Congo": "DR Congo",
    "Republic of the Congo": "Congo",
    "Micronesia": "Federated States of Micronesia",
    "Palestinian Territory": "Palestine",
    "Vatican": "Holy See",
    "U.S. Virgin Islands": "US Virgin Islands",
    "Bonaire, Saint Eustatius and Saba": "Caribbean Netherlands",
}


@cache
def areas() -> dict[str, str]:
    """Country, folded, to the name of its M49 area."""
    found: dict[str, str] = {}
    for line in M49.strip().splitlines():
        area, countries = line[4:].split(": ")
        found |= {folded(country): area for country in countries.split(", ")}
    return found | {folded(name): found[folded(same)] for name, same in ALSO.items()}


def area_of(country: str) -> str | None:
    """'Southern Asia' of 'Sri Lanka'; None for a name that M49 does not have."""
    return areas().get(folded(country))
