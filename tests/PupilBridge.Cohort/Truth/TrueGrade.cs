using PupilBridge.Exams.Criteria.Grading;

namespace PupilBridge.Cohort.Truth;

/// <summary>
/// Which grade of Bell's scale a loss of so many log units truly is in the simulated clinic: the nearest of the published means 0.4,
/// 0.7, 1.1 and 2.0 (Bell RA et al. 1993, abstract); from 4 log units V. Only the clinic needs that; the product never converts.
/// </summary>
internal static class TrueGrade
{
    public static BellGrade Of(double logUnits) =>
        logUnits switch
        {
            < 0.55 => BellGrade.I,
            < 0.9 => BellGrade.II,
            < 1.55 => BellGrade.III,
            < 4 => BellGrade.IV,
            _ => BellGrade.V,
        };
}
