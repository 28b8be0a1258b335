from django.urls import path, register_converter

from jobs.surveys.tablet import aside_views, views


class Sha256Converter:
    """A digest as a tablet writes it: an address with anything else in it is nobody's."""

    regex = "[0-9a-f]{64}"

    def to_python(self, value: str) -> str:
        return value

    def to_url(self, value: str) -> str:
        return value


register_converter(Sha256Converter, "sha256")

urlpatterns = [
    path("surveys/carried/", views.surveys_carried, name="surveys_carried"),
    path("surveys/<str:number>/carried/", views.survey_carried, name="survey_carried"),
    path("surveys/<str:number>/changes/", views.survey_changes, name="survey_changes"),
    path(
        "surveys/<str:number>/photographs/<sha256:sent_sha256>/",
        views.photograph_upload,
        name="photograph_upload",
    ),
    path("surveys/<str:number>/aside/", aside_views.survey_aside, name="survey_aside"),
    path("surveys/<str:number>/aside/<int:pk>/", aside_views.survey_choose, name="survey_choose"),
]
