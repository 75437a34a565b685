using PupilBridge.Browser;
using PupilBridge.Browser.Storms;
using PupilBridge.Measure.Figures;
using PupilBridge.Scenarios.Service;

namespace PupilBridge.Measure.Reliability;

/// <summary>Kills of the real service: under an instrument alone, and under an examiner at an open lane in a real browser.</summary>
internal static class KillMeasure
{
    public static async Task RunAsync(FigureFile figures, string folder, int kills, int atTheLane)
    {
        string Place(string name) => Directory.CreateDirectory(Path.Combine(folder, name)).FullName;

        var storm = await KillStorm.RunAsync(Place("instrument"), kills, 20_263, pace: 4);
        List<string> problems = [.. storm.Audit.Problems];
        if (!storm.CameToRest || !storm.JournalIsSound)
            problems.Add($"came to rest {storm.CameToRest}; {storm.VerifySummary}");
        figures.Set("kills_instrument_alone", storm.Kills);
        figures.Set("kills_instrument_alone_with_events_under_way", storm.KillsWithEventsUnderWay);
        figures.Set("kills_instrument_alone_events", storm.Audit.Happened);
        System.Console.WriteLine(
            $"instrument alone: {storm.Kills} kills, {storm.KillsWithEventsUnderWay} with events under way, {storm.Audit.Happened:N0} "
                + $"events, lost {storm.Audit.Lost}, doubled {storm.Audit.Doubled}, false {storm.Audit.False}"
        );

        await using var chromium = await Chromium.StartAsync();
        var lane = await ConsoleKillStorm.RunAsync(chromium, Place("lane"), atTheLane, seed: 20_264);
        problems.AddRange(lane.Problems);
        figures.Set("kills_at_the_lane", lane.Kills);
        figures.Set("kills_at_the_lane_with_answer_waiting", lane.KillsWithAnswerWaiting);
        figures.Set("kills_at_the_lane_with_events_under_way", lane.KillsWithEventsUnderWay);
        figures.Set("kills_at_the_lane_exams", lane.Exams);
        figures.Set("kills_at_the_lane_judgements", lane.Judgements);
        figures.Set("kills_at_the_lane_events", lane.Events);
        System.Console.WriteLine(
            $"at the lane: {lane.Kills} kills, {lane.KillsWithAnswerWaiting} with an answer waiting, {lane.KillsWithEventsUnderWay} with "
                + $"events under way, {lane.Exams} exams, {lane.Judgements} judgements, {lane.Events:N0} events"
        );

        figures.Set("kills", storm.Kills + lane.Kills);
        figures.Set("kills_problems", problems.Count);
        foreach (var problem in problems)
            System.Console.Error.WriteLine($"kills: {problem}");
    }
}
