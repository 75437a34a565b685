namespace PupilBridge.Exams.Tests.Statistics.Agreement;

/// <summary>
/// Peak expiratory flow of 17 people, in l/min, twice by each of two meters: the data of Bland JM, Altman DG, Lancet
/// 1986;i:307-310, read in full in two reproductions.
/// </summary>
internal static class PeakFlow
{
    public static double[] Wright1 { get; } =
    [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427];

    public static double[] Wright2 { get; } =
    [490, 397, 512, 401, 470, 611, 415, 431, 638, 429, 420, 633, 275, 492, 165, 372, 421];

    public static double[] Mini1 { get; } =
    [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451];

    public static double[] Mini2 { get; } =
    [525, 415, 508, 444, 500, 625, 460, 390, 642, 432, 420, 605, 227, 467, 268, 370, 443];
}
