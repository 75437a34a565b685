using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using PupilBridge.Console.Hosting;

namespace PupilBridge.Console.Tests.Hosting;

/// <summary>Starts the console in this process, without a socket.</summary>
internal static class StartedConsole
{
    /// <summary>How it is served where a test says nothing else.</summary>
    public static ConsoleSettings Settings(DirectoryInfo folder) =>
        new()
        {
            DataFolder = folder.FullName,
            ProgramVersion = "0.0-test",
            Port = 0,
        };

    /// <summary>Starts it.</summary>
    /// <param name="settings">How it is served.</param>
    /// <param name="desks">What it asks.</param>
    /// <param name="time">The clock.</param>
    /// <param name="services">Adds or replaces services.</param>
    /// <param name="first">What comes before the console in each request.</param>
    public static WebApplication Start(
        ConsoleSettings settings,
        ConsoleDesks desks,
        TimeProvider time,
        Action<IServiceCollection>? services = null,
        Action<WebApplication>? first = null
    )
    {
        var builder = WebApplication.CreateEmptyBuilder(
            new WebApplicationOptions { ApplicationName = "PupilBridge.Console" }
        );
        builder.WebHost.UseTestServer();
        ConsoleSetup.Add(builder.Services, settings, desks, time);
        services?.Invoke(builder.Services);
        var app = builder.Build();
        first?.Invoke(app);
        ConsoleSetup.Map(app);
        app.StartAsync().GetAwaiter().GetResult();
        return app;
    }
}
