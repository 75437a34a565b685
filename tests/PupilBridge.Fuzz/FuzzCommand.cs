using System.Globalization;
using PupilBridge.Fuzz.Engine;

namespace PupilBridge.Fuzz;

/// <summary>The command line: all targets or one, for long or for so many units, or one input once more.</summary>
internal static class FuzzCommand
{
    private const string Usage = """
        dotnet run -c Release --project tests/PupilBridge.Fuzz -- all [--parts N] [--seed N]
            every target, and the figures into docs/figures/reliability.json; --parts 100 gives a hundredth and no figures
        dotnet run -c Release --project tests/PupilBridge.Fuzz -- TARGET [--units N] [--seed N]
            one target
        dotnet run -c Release --project tests/PupilBridge.Fuzz -- replay TARGET FILE
            one input once more; it fails as it failed, or says that it does not
        """;

    public static int Run(string[] args)
    {
        if (args is ["replay", var name, var file] && TargetList.Find(name) is { } again)
            return Replay(again, file);
        if (args.Length > 0 && args[0] == "all")
            return All(Number(args, "--parts", 1), (ulong)Number(args, "--seed", 1));
        if (args.Length > 0 && TargetList.Find(args[0]) is { } target)
            return One(target, Number(args, "--units", target.Long), (ulong)Number(args, "--seed", 1));
        System.Console.Error.WriteLine(Usage);
        System.Console.Error.WriteLine($"Targets: {string.Join(", ", TargetList.All.Select(t => t.Name))}");
        return 2;
    }

    private static int All(long parts, ulong seed)
    {
        var start = Campaign.Memory();
        var results = new List<CampaignResult>();
        using var watchdog = Watch();
        foreach (var target in TargetList.All)
        {
            var result = Campaign.Run(target, target.Long / parts, seed, watchdog);
            Tell(result);
            if (result.Failure is { } failure)
                return FailureFile.Write(target, failure);
            results.Add(result);
            // After each one: what a later one finds must not take the others' figures away.
            if (parts == 1)
                FuzzFigures.Save(results, start);
        }

        return 0;
    }

    private static int One(TargetInfo target, long units, ulong seed)
    {
        using var watchdog = Watch();
        var result = Campaign.Run(target, units, seed, watchdog);
        Tell(result);
        return result.Failure is { } failure ? FailureFile.Write(target, failure) : 0;
    }

    private static int Replay(TargetInfo target, string file)
    {
        using var watchdog = Watch();
        var watched = watchdog.Watch(target.Name);
        var input = File.ReadAllBytes(file);
        var made = target.Make();
        watched.Begin(input, input.Length);
        var failure = Minimiser.Fails(made, input);
        watched.Rest();
        System.Console.WriteLine(failure is null ? "This input does not fail." : $"{failure}");
        (made as IDisposable)?.Dispose();
        return failure is null ? 0 : 1;
    }

    private static Watchdog Watch() =>
        new(
            TimeSpan.FromSeconds(60),
            (target, input) =>
            {
                FailureFile.Write(
                    TargetList.Find(target)!,
                    new Failure(input, new TimeoutException("This input has not come to an end for a minute."))
                );
                Environment.Exit(3);
            }
        );

    private static void Tell(CampaignResult r) =>
        System.Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{r.Target.Name}: {r.Units:N0} {r.Target.Unit} in {r.Inputs:N0} inputs, {r.Seconds:F0} s; kept {r.Kept:N0}, "
                    + $"ways of behaving {r.Behaviours:N0}; memory {r.WarmMegabytes:F0} MB warm, {r.EndMegabytes:F0} MB at the end"
            )
        );

    private static long Number(string[] args, string name, long otherwise)
    {
        var at = Array.IndexOf(args, name);
        return at >= 0 && at + 1 < args.Length ? long.Parse(args[at + 1], CultureInfo.InvariantCulture) : otherwise;
    }
}
