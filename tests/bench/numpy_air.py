"""What src/air computes over arrays, as a user of numpy would write it: hours as a table of solar days, what a day fixes once a day,
results in place where that saves an array. Equations are those of FAO-56 and ASCE-EWRI (2005), as in tests/bench/et_plain.cpp."""
import numpy as np

LATITUDE, ELEVATION_M = np.radians(42.45), 250.0
FIRST_DAY = np.datetime64("2024-01-01")
PI = np.pi


def days_of_year(days):
    dates = FIRST_DAY + np.arange(days)
    return (dates - dates.astype("datetime64[Y]")).astype(np.int64) + 1


def clear_sky(hours):
    """Clear sky in W/m2 and where the sun is high enough to judge the sky by, as tables of days by 24."""
    day = days_of_year(hours // 24)[:, None]
    year, b = 2 * PI * day / 365, 2 * PI * (day - 81) / 364
    declination = 0.409 * np.sin(year - 1.39)
    correction_h = 0.1645 * np.sin(2 * b) - 0.1255 * np.cos(b) - 0.025 * np.sin(b)
    sines, cosines = np.sin(LATITUDE) * np.sin(declination), np.cos(LATITUDE) * np.cos(declination)
    sunset = np.arccos(np.clip(-np.tan(LATITUDE) * np.tan(declination), -1, 1))
    noon = np.arcsin(sines + cosines)
    enough = np.where(noon > 0, np.sin(np.where(noon < 0.4, 0.75 * noon, 0.3)), 2)
    scale = 12 / PI * 60 * 0.0820 / 0.0036 * (1 + 0.033 * np.cos(year)) * (0.75 + 2e-5 * ELEVATION_M)
    middle = (correction_h - 11.5 + np.arange(24)) * (PI / 12)
    begin, end = middle - PI / 24, middle + PI / 24
    np.clip(begin, -sunset, sunset, out=begin)
    np.clip(end, -sunset, sunset, out=end)
    clear = np.sin(end)
    clear -= np.sin(begin)
    clear *= cosines
    end -= begin
    end *= sines
    clear += end
    clear *= scale
    elevation = np.cos(middle, out=middle)
    elevation *= cosines
    elevation += sines
    return clear.ravel(), (elevation >= enough).ravel()


def evapotranspiration(temp_c, rh_pct, wind, pressure, shortwave):
    """FAO-56 eq. 53 and ASCE-EWRI short, mm per hour."""
    clear, judges = clear_sky(len(temp_c))
    high = np.flatnonzero(judges)
    last = np.cumsum(judges)
    own = np.append(0.6, shortwave[high] / clear[high])
    np.clip(own, 0.3, 1.0, out=own)
    own *= 1.35
    own -= 0.35
    opening = own[last]
    from_pole = temp_c + 237.3
    growth = 17.27 * temp_c
    growth /= from_pole
    np.exp(growth, out=growth)
    es = 0.6108 * growth
    ea = es * rh_pct
    ea *= 0.01
    net = temp_c + 273.16
    net *= net
    net *= net
    net *= 4.903e-9 / 24
    net *= opening
    emissivity = np.sqrt(ea)
    emissivity *= -0.14
    emissivity += 0.34
    np.maximum(emissivity, 0, out=emissivity)
    net *= emissivity
    np.subtract(0.77 * 0.0036 * shortwave, net, out=net)
    night = net < 0
    available = np.where(night, 0.408 * 0.5, 0.408 * 0.9)
    available *= net
    gamma = 0.665e-3 * pressure
    gamma_wind = gamma * wind
    np.subtract(es, ea, out=es)
    drying = np.maximum(es, 0, out=es)
    drying *= gamma_wind
    drying *= 37
    drying /= temp_c + 273
    growth /= from_pole
    growth /= from_pole

    def fraction(slope_constant, cd):
        slope = slope_constant * growth
        below = cd * gamma_wind
        below += gamma
        below += slope
        slope *= available
        slope += drying
        slope /= below
        return slope

    return fraction(4098 * 0.6108, 0.34), fraction(2503.0, np.where(night, 0.96, 0.24))


def vapour(temp_c, rh_pct):
    """Saturation pressure and deficit, kPa."""
    es = 17.27 * temp_c
    es /= temp_c + 237.3
    np.exp(es, out=es)
    es *= 0.6108
    deficit = rh_pct * -0.01
    deficit += 1
    deficit *= es
    np.maximum(deficit, 0, out=deficit)
    return es, deficit
